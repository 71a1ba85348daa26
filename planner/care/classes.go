package care

// englishClasses are words that mean the same in wordings.
var englishClasses = [][2]string{
	{"chest", `chest chested chset cheast chets breast breastbone breast_bone sternum rib_cage ribcage chestbone torso`},
	{"heart", `heart hart heartbeat heart_beat ticker tickers hearth`},
	{"pulse", `pulse heart_rate heartrate hr bpm heartbeat rhythm`},
	{"pain", `pain pains painful pian hurt hurts hurting ache aches aching achy ached sore soreness tight tightness tighter tightening tightened pressure press presses pressing squeeze squeezed squeezes squeezing
		crush crushed crushing squash squashed burning burns burned burnt stab stabs stabbing sharp heavy heaviness discomfort uncomfortable twinge twinges cramp cramps cramping constricted constriction clench* gripping vice
		throbbing stinging killing kills pinch pinches pinching squeezy stitch tite tihgt pressured compress* oppress* niggle indigestion heartburn`},
	{"hurts", `hurt hurts hurting pain pains painful pian sore soreness ache aches aching achy ached stab stabs stabbing sharp spasm spasms kill kills killing killed scream* twinge twinges pinch* lock* moan* burn burns burning sting* swell* swollen
		flare* playing_up niggle* pull pulled tear torn tore strain* tweak* inflam* throb* tender agony knackered_my gives_way giving_way click* seized grumbl* on_fire wrecked dodgy messed_up buggered`},
	{"part", `knee knees hip hips lower_back my_back back_pain back_spasm backs hamstring hamstrings hammy achilles achilies achillies achiles achillees ankle ankles shoulder shoulders neck calf groin foot feet heel shin shins glute glutes it_band itb wrist wrists
		elbow elbows rib ribs tendon tendons ligament kneecap quad adductor hipflexor hip_flexor piriformis sciatic* collarbone tailbone coccyx thumb plantar`},
	{"bone", `pinky pinkie collarbone collar_bone collarbones collerbone collarbon clavicle rib ribs wrist arm elbow finger fingers hand thumb hip ankle shoulder scaphoid pelvis toe toes foot knee kneecap jaw nose cheekbone cheek_bone eye_socket bone tailbone coccyx radius ulna scapula
		shoulder_blade vertebra vertebrae spine leg shin tibia fibula femur heel metacarpal knuckle knuckles sternum`},
	{"broken", `broke broken break brake_n brock brocken breaked fracture fractured fractures fracturd cracked snapped busted bust shattered splintered smashed fisure fissure chipped`},
	{"swollen", `swollen swelled swelling swell swells size_of balloon ballooned lumpy sticking_up sticking_out sticks_out poking grapefruit fat deformed crooked bent_wrong wrong_angle purple blue bruised_and bone_to_the_outside disfigured egg`},
	{"head", `head haed hed heid noggin skull cranium temple forehead fore_head bonce noddle nut scalp eyebrow napper`},
	{"hit", `hit hits hitting bang banged banging bump bumped knock knocked nock knok nocked whack whacked wack wacked smack smacked crack cracked bash bashed smash smashed clonk* clattered clatter struck strike thump thumped bounce bounced
		landed landing clout* headbutt* blow kicked kick elbowed elbow slam slammed fell fallen beaten beat clunk* donk* bonk*_my clobber* walloped wallop conk* impact lump egg bruise stitches bruised dent touched_down gash cut`},
	{"helmet", `helmet helmets helment helments hemlet hlemet helmit helmut lid casque skid_lid helmets`},
	{"damaged", `crack cracked cracks crackd cracking broke broken break split splits dent dented dents smash smashed toast destroyed bust busted snapped shattered in_two in_half bits pieces ruined knackered wrecked written_off scuffed crushed
		caved_in trashed split_down dead did_its_job saved_me saved_my took_it took_one took_some took_the caught_the hole chunk fucked gone_at crumpled totalled squashed flattened flat squished imploded`},
	{"crash", `crash knocked_down knocked_over knocked_me_down knocked_me_over run_over rear_ended hit_by_a_car ate_dirt ate_tarmac eat_tarmac eating_tarmac ate_asphalt ate_gravel ate_the_road ate_concrete kissed_the_tarmac kissed_the_road kissed_the_floor bit_the_dust crashed crashing crashd fall fell fallen felt_off tumble tumbled spill spilled stack stacked came_off come_off coming_off went_down going_down hit_the_deck hit_the_ground hit_the_tarmac hit_the_road over_the_bonnet over_the_car over_the_roof over_the_hood over_the_bars over_the_handlebar
		over_the_handlebars otb slid slipped pile_up pileup wipe_out wiped_out wipeout accident collision collided knocked_off decked smacked clattered got_hit car_hit car_door kissing_the_road prang shunt came_a_cropper face_plant faceplant* bounced`},
	{"headsign", `headache headaches head_ache dizzy diziness dizziness dizy foggy fogy fog fuzzy nausea nauseous nauseated remember forgetful lights_are light_is light_hurts bright spaced_out spacey sleepy vomit* threw_up throw_up throwing_up puked confused blurry blurred
		blurring ringing whistling feel_sick sicky feeling_sick bit_sick been_sick woozy dazed seeing_stars saw_stars see_stars memory head_hurts head_aches sore_head head_pounding head_thumping head_is_spinning light_disturbs`},
	{"breathless", `breathless breathles breathlessness breatless short_of_breath short_of_breth shortness_of_breath out_of_breath gasping gasp gasps wheezing wheezy wheeze puffing panting puffed winded fighting_for_air fighting_for_breath struggling_to_breathe struggling_for_breath
		cant_breathe cant_breath couldnt_breathe hard_to_breathe breathing_hard breathing_heavy heavy_breathing cant_catch_breath breath_back get_my_breath catch_my_breath catching_my_breath dont_get_air get_air`},
	{"rest", `sofa couch bed sat sitting lying laying rest resting desk nothing stairs kitchen chair idle telly tv talking sentence sentance asleep sleeping armchair still home floor night standing_still`},
	{"cant", `cant cannae canny couldnae cannot can_not couldnt could_not couldn cudnt cnt unable struggl* hard difficult difficulty trouble tough barely hardly`},
	{"dont", `dont dinnae didnae didnt doesnt cant cannot couldnt do_not did_not can_not could_not no not didn forgot forget no_longer`},
	{"dizzy", `dizzy dizy dizziness diziness lightheaded light_headed giddy woozy wobbly head_turning head_spinning spinning vertigo spaced_out nauseous nearly_fell`},
	{"doc", `doc docs doctor doctors docter doctr gp consultant cardiologist surgeon physio phsyio physios physiotherapist hospital nurse medic medics specialist dr a&e physician cardio_guy cardio_woman cardio_doctor cardio_nurse cardiology heart_doctor heart_specialist er_doctor urgent_care osteopath osteo orthopod paramedic paramedics radiographer pharmacist clinic neurologist obgyn gynae gynaecologist gynecologist midwife oncologist urologist rheumatologist pulmonologist haematologist hematologist orthopaedic ortho registrar triage nhs 111 cardiac_team heart_team team_doctor race_doctor first_aider`},
	{"said", `told tell tells said says say saying ordered orders wants want signed prohibit* forbid* forbad* banned advised advises advice insists insisted recommends reckons reckoned thinks suspects warned put prescribed confirmed`},
	{"ride", `ride rides riding rode bike biking cycling cycle pedal pedals pedalling pedaling pedaled pedalled pedalstroke pedal_stroke downstroke climb climbing turbo rollers bars drops saddle push pushing stand aero session spin effort efforts interval intervals`},
	{"eat", `eat eats eating ate eaten food meal meals dinner tea lunch breakfast bread cake calories`},
	{"side", `one_side left right left_side right_side half side`},
	{"numb", `numb numbness dead weak tingling tingly tingles tingle asleep sleeps droopy drooping drooped droop drooping drop dropped paralysed paralyzed limp pins_and_needles saggy sagging`},
	{"surface", `tarmac asphalt road kerb curb ground floor wall tree post pole branch barrier fence gate window windscreen bonnet door mirror lamppost lamp_post rock stone stem handlebar handlebars bars pavement concrete gravel bollard railing beam shelf cupboard`},
	{"wish", `wish hope think thinking thought imagine imagining wonder wondering looking look keep dream dreaming sometimes`},
	{"me", `i me my im ive myself`},
	{"went", `went go gone going goes turned`},
	{"temp", `temp temperature temprature temperture tempature thermometer therometer fever`},
	{"limb", `calf calfs calve calves shin thigh leg lower_leg`},
	{"fatter", `double twice_the_size two_times_the_size swollen swelled swelling bigger fatter thicker larger ballooned puffy blown_up double_the_size size_of`},
	{"urine", `urine pee wee piss peeing weeing pissing urin`},
	{"notpee", `no hardly_any barely_any not_much without`},
	{"muscles", `thighs quads muscles calves thigh hamstrings biceps glutes`},
	{"keep", `keep kept keeping hold`},
	{"stopsnot", `wont_stop doesnt_stop does_not_stop not_stop cant_stop didnt_stop isnt_stopping not_stopping not_stopped hasnt_stopped still_bleeding still_going still_pumping still_running still_dripping will_not_stop never_stops wouldnt_stop`},
	{"airway", `lips lip tongue throat face eyelids mouth voice airway eyelid`},
	{"swells", `swell swells swelling swelled swollen thick thicker balloons ballooned blown_up blow_up blew_up narrow closing closed tight tightening puffing puffed puffy fat lumpy hoarse itchy numb closes`},
	{"nohelp", `isnt_touching not_touching doesnt_touch nothing not_helping doesnt_help isnt_helping not_working doesnt_work isnt_working no_effect no_help no_use useless wears_off every_hour not_doing done_nothing does_nothing didnt_help hardly_helps barely_helps wont_help not_help not_work doing_nothing empty`},
	{"sugar", `sugar sugars glucose meter bg cgm sensor_says blood_sugar libre`},
	{"woke", `woke wake woken waking waked came_to came_round come_to come_round wakened`},
	{"dark", `dark black grey gray blackness tunnel`},
	{"balls", `testicle testicles testis scrotum ball_suddenly balls_suddenly one_ball left_ball right_ball my_ball my_nut left_nut right_nut bollock bollocks nutsack`},
	{"fitted", `fitted fit put put_in implanted got_a had_a inserted new`},
	{"notbraking", `not_braking didnt_brake dont_brake not_brake without_braking never_braked stop_braking no_brakes forget_to_brake letting_go_of_the_brakes not_stopping`},
	{"headpain", `headache headaches head_ache head_pain head_hurts migraine pain_in_my_head pain_in_the_head pain_in_head pain_behind_my_eyes head_was_splitting splitting_head`},
	{"tearing", `tear tears tearing tore torn rip rips ripping ripped split splitting searing knifelike knife_like shearing shredding`},
	{"goesto", `to into down goes going go went spread spreads spreading radiate radiates radiating shoots shooting travels travelling moves moving runs running up_into up_to towards through`},
	{"effort", `climb climbs climbing uphill hill hills push pushes pushing effort efforts hard_effort sprint sprints sprinting interval intervals threshold ride_hard riding_hard go_hard going_hard exercise steep up_the exertion ride_uphill sweat sweats sweating`},
	{"muddled", `confused confusion confusing_myself muddled nonsense gibberish rambling babbling raving delirious delirium hallucinating hallucination hallucinations seeing_things hearing_things see_things makes_no_sense disoriented disorientated
		out_of_it talking_rubbish speaking_rubbish incoherent drowsy foaming seizure fit slurring slurred staggering stagger unsteady`},
	{"belly", `belly stomach stomache abdomen abdominal tummy gut guts midriff`},
	{"hardbelly", `hard rigid stiff swollen swelling swells swelled swell distended bloated bulging ballooned ballooning board plank rock stone tense growing bigger tight`},
	{"blow", `crash crashed crashing fell fall fallen falling handlebar handlebars bar bars bar_end stem kick kicked kicked_by hit hitting landed landing impact collided collision accident came_off knocked_off thrown wrecked`},
	{"tummy", `stomach stomache stomack stomac tummy belly gut guts bowel bowels tum`},
}

// ordinaryClasses are people, things and what the words of scopes need. They count only as they are spelt.
var ordinaryClasses = [][2]string{
	{"person", `mate mates friend friends pal buddy clubmate teammate team_mate captain flatmate housemate roommate lad lads guy guys bloke blokes fella man men woman women girl girls boy boys baby babies toddler toddlers nephew niece rider riders junior juniors bird missus student students pupil pupils pt patients teacher fan spectator marshal cyclist runner driver horse fellow pro pros leader bunch team
		child children kid kids kiddo kiddos dog dogs cat cats pup puppy boss neighbour neighbours neighbor neighbors colleague colleagues coworker coworkers cousin cousins uncle aunt auntie gran granny grandad grandma grandpa nan member members treasurer sweeper chap chaps lodger tenant landlord landlady organiser organizer mechanic visitor newbie newbies newcomer lady ladies gentleman
		old_boy old_fella oldie twins twin triplets grandson granddaughter grandkids grandchild daughter_in_law partner training_partner carpool_buddy training_buddy riding_buddy owner volunteer volunteers steward chairman chairwoman chairperson secretary president plumber builder postman courier babysitter nanny childminder au_pair client clients customer patient passenger commuter walker pedestrian jogger tourist stranger scout trainee apprentice assistant manager
		foreman supervisor sprinter climber domestique triathlete racer racers opponent rival rivals youngster youngsters teen teenager teenagers pensioner veteran vet vets novice novices beginner beginners bridesmaid groom bride host guest guests relative relatives family pony goat hamster rabbit cyclists photographer commissaire timekeeper sub replacement hubby husband wife brother bro sister sis girlfriend boyfriend gf bf dad father mum mom mother son sons daughter daughters missis dads mums moms other_half better_half inlaws inlaw stoker`},
	{"kin", `mate brother sister wife husband hubby partner gf bf girlfriend boyfriend dad dads father mum mums mom mother son sons daughter daughters kid kids kiddo kiddos children dog dogs boss bosss neighbour neighbours neighbor colleague colleagues coworker friend cousin uncle aunt nan nans gran grandad grandma grandson granddaughter teammate teammates flatmate housemate missus toddler lad bloke guy fella buddy clubmate inlaw twins lodger stepson stepdaughter kiddos other_half mates brothers sisters wifes husbands hubbys partners gfs bfs girlfriends boyfriends fathers moms mothers childrens neighbors coworkers friends cousins uncles aunts grans grandads grandmas grandsons granddaughters flatmates housemates toddlers lads blokes guys fellas buddys clubmates inlaws lodgers stepsons stepdaughters other_halfs`},
	{"thing", `skinsuit numbers number suit wheel wheels wheelset paint job paintjob bars bar session climbing weekend shoes set groupset pace sprint road gravel frame bike bikes ride rides descent climb hill jersey kit view views route course trail tune tunes jump helmet lid power watts singletrack track finish line stem cranks crank saddle tyres tires tyre bottle socks shades glasses photo photos pic pics video vid footage segment avg speed tan legs time times result setup build design colour colours color colours logo website update feature app plan weather tailwind loop berms drop hairpins tarmac surface sunset sunrise cafe cake attack move breakaway win`},
	{"stairs", `stairs stair floor staircase upstairs steps`},
	{"abstract", `price prices fee fees bill cost costs euro euros quid table tables results list lists numbers number zones options choice choices plan plans screen schedule organisation organization excitement joy laughter laughing maths exam exams news profile email website startlist start_list spreadsheet calendar smell`},
	{"xray", `xray xrays x_ray x_rays scan scans mri ecg bloods echo ct blood_test blood_tests results result check_up checkup ultrasound`},
	{"complaint", `pain pains ache aches soreness cough cold headache headaches niggle niggles bug swelling stiffness twinge twinges sniffles sniffle lurgy dizziness nausea fever temperature flu covid virus infection chill chills cramps diarrhoea vomiting sickness sore_throat tightness injury tendonitis sciatica rash`},
}

// englishFigures are figures of speech and ordinary words of training.
const englishFigures = `
		committee|meeting|paperwork|admin|homework|spreadsheet ~3 pain ~2 chest|neck|backside|arse|head
		session|set|intervals|workout|shift ~1 knocked me out
		dream|dreamt|dreamed ~1 i|that|where ~2 fainted|collapsed|crashed|died|fell
		got|get|getting|need ~1 it|that|this off my chest
		head = unit
		$xray|$doc ~8 all_in_order|without_findings|no_findings|found_nothing|all_clean|all_fine|all_normal
		$xray ~5 shows|showed|found nothing
		physio|doctor|doc|gp|cardiologist|surgeon|clinic ~3 happy|signed_me_off_as_fit|green_light
		faint*|dizzy|gasp*|shiver*|heart_attack|stroke|headache|breathless|puke|puked|vomit*|seizure|fit|sick ~3 from|of|at|over|by|with|about|seeing|reading ~3 $abstract
		$abstract ~6 made|let|lets|makes|gave|gives|leave|leaves ~3 faint|dizzy|heart_attack|sick|stroke|gasp
		gasp* ~1 for ~1 air ~2 at|by|over ~2 $abstract
		dizzy|sick|mad|fractured|broken|blurry schedule|numbers|plan|zones|calendar|spreadsheet
		head ~1 spins|spinning ~3 $abstract
		palpit*|palpitation|herzklopfen|heart|pulse ~10 stage_fright|nerves|nervositat|nervousness|lampenfieber|aufregung
		racing|travel|gear|hill|spring|summer|climbing|cycling|ski|bike = bug|fever|virus
		flu|fever|virus of ~1 laziness|spring|work
		sick beats|tune|tunes|bars|kit|wheels
		home sick for
		vomit coloured|colored|green
		swallow* ~4 flies|fly|dust|pride|bug|midge
		half ~1 my face ~2 tan*|sunburn*|sun_cream|muddy|mud
		bottle|cage|spoke|frame|rim|chain|holder|derailleur fracture*
		fracture* ~5 bottle|spoke|frame|rim|chain|holder|cage
		jumped|jump|jumping ~3 bridge|cliff|pier ~3 lake|sea|river|water|pool|kids
		along|over|under|past|near ~1 cliff|cliffs|bridge ~2 view|views|lovely|detour|closed
		see|seeing ~1 no|any point|sense ~1 in ~3 warm*|rest|riding|two|intervals|openers|taper|cool*|minutes|#number
		point|sense in ~3 warm*|rest_days|openers|intervals|cool*
		hate ~1 myself ~1 for ~1 sign*|entering|eating|missing|choosing
		cant|cannot|can_not ~1 carry|go on ~3 with|like ~3 saddle|groupset|wheels|bike|shoes|kit|gears|brakes|tyres|job
		unconsciously|subconsciously
		unit|units|computer|screen|phone|laptop|app|headset|garmin|watch|meter|bike|tv|display|fork|gearbox|motor ~3 black|blacked|blacking|fainted|dropped|died|funny|stroke|fit|seizure|dead ~1 out|turn|fit
		$went|goes black|dark|blank|white ~2 on ~1 screen|display|computer|phone
		black|blacked|blacking ~1 out ~2 window|windows|saturday|sunday|monday|tuesday|wednesday|thursday|friday|date|dates|calendar|week|weekend
		black|blacked|blacking|blackout = windows|window|curtains|blinds|paint
		funny turn ~3 headset|bike|fork|wheel
		bike|headset|fork|wheel|chain|van|car ~2 funny turn
		knocked out of|a|an|the|two|three|four|five|six|ten|solid|#number|some|this|that|my
		passed|out|dead|gone|collapsed|crashed|unconscious|conked|zonked ~2 out|cold|away|straight ~2 sofa|couch|bed|settee|armchair ~8 nap|slept|hours|pizza|happy|baby|early|great|best|log|#number|nine|ten|eight
		passed|out|conked|zonked ~1 out|cold ~2 sofa|couch|bed|settee|armchair ~1 by|at ~1 #number|eight|nine|ten|half
		breathe|breath|breathless ~2 for|with|from ~1 laughing|laughter|joy|giggling|excitement
		breathless views|view|road|hill|race|finish|excitement|commentary
		breathe|breath ~2 train|bus|tram|tube|room|jersey|skinsuit|crowd ~4 lol|people|ppl|haha|tight|full
		cold sweat|sweats ~2 when_i|when|at|seeing|thinking
		dizzy|sick|shivering|shaking|shake|trembling|faint ~1 from|with|of|at|by ~2 excitement|joy|nerves|how|numbers|choice|choices|options|anticipation|laughing|laughter|plan|zones|happiness|hunger
		suicide|suicidal|death|killer|murder hill|hills|sprints|sprint|repeats|reps|drills|intervals|climb|loop|sets|ride|run|shuttle|shuttles
		end|ended|ending it ~1 all ~1 with|in ~2 sprint|coffee|cake|beer|bang|town
		end|ended|ending it = early|there|here|at|with
		seeing|see double ~2 two|races|crits|entries|logged
		fractur*|dislocat*|broken|broke|collaps*|split = schedule|week|sleep|nights|season|derailleur|hanger|programme|program|calendar|days|record
		had|have|having ~1 fit when_i|when_he|when_she|at ~3 saw|see|seeing|price|fee|bill|wife|boss|heard
		slur*|slurred ~3 after ~3 glass|glasses|wine|beer|beers|prosecco|pints|gin|drinks
		wet|pissed|peed myself laughing|with
		laughing|laughed ~4 wet|pissed|peed ~1 myself
		weight|load off ~1 my chest|shoulders|mind
		breathing|breathe ~1 hard|heavy|heavily ~4 chat|talk|normal|steady|fine|good|sentence
		out_of_breath|breathless|puffed ~5 who_isnt|crate|carrying|beer|shopping|laughing
		cut ~1 myself shaving
		shav* ~6 cut|nicked ~1 myself
		feverish|fever activity|preparations|shopping|bidding|pitch|dream|dreams
		sick pay|note|leave|day|days|bag|joke|burn|beat|move
		engine|motor|van|car|exhaust|turbo_bike coughed|coughing|coughs|wheez*|died
		antibiotic|antibacterial soap|gel|spray|wipes|chamois
		surgery hours|times|desk|reception|opens|opening
		heart like|of ~1 ox|lion|gold|stone|steel|bull|horse|diesel|racehorse
		throat|voice ~2 sore|hoarse|gone|dead|rough ~2 from ~1 cheering|shouting|singing|karaoke|yelling
		world|life|week|everything|year is|was|spins|spinning ~3 round|around ~1 my|the
		saw|see|seeing|seen stars ~6 night|sky|milky|moon|camp|clear|telescope|tent
		bit|bite|bites|biting ~1 my tongue ~2 when|and_said|not_to|he|she|about|so_i
		operation sunday|saturday|podium|base|comeback|taper|early|bikini|summer|sub
		heart ~1 jumps|jumped|skips|leaps|stops ~2 when|bc|because|at|when_i ~4 gun|profile|price|startlist|see|saw|sees|whistle|podium
		heart|hart attack ~3 looking|seeing|reading|startlist|start_list|profile|price|fee
		heartattack|heartbreak|coffin|widowmaker|widow hill|climb|lane|alley|loop|corner|pass
		untouched|unscathed ~2 head|helmet
		head|helmet ~1 untouched|unscathed|unmarked
		not depressed
		head unit|units|wind|winds|tube|torch|lamp|light|set|phones|coach|quarters|count|office|down|wound
		headset|headwind|headwinds|headphones|headlight|headlamp|headbanger
		head ~1 of ~1 group|bunch|race|peloton|road|pack
		head on into ~1 wind
		wind in ~1 head
		the|hr|rate|my|new strap ~4 chest
		doctor who
		bench|chest = press|flys|flies|fly
		breathe|breathing ~2 through ~2 mask|buff|scarf
		is|be|its|hit|hits #number ~1 degrees|c ~2 too|outside|forecast|tomorrow|on|today
		kill|murder|smash|crush ~1 this|that|these|those|todays|tomorrows|tonights ~3 interval|intervals|session|sessions|set|sets|workout|climb|hill|race
		too_hot|heat|heatwave|forecast|weather ~6 #degrees|38|39|40|41 ~1 degrees|c
		#degrees|38|39|40|41 ~1 degrees|c ~6 too_hot|heat|heatwave|forecast|weather
		meter|sensor|trainer|turbo|printer|radio ~1 had|has|having ~1 fit|seizure|stroke|meltdown
		numb|tingl*|frozen|dead ~5 cold|freezing|wind|winter|frost|snow
		face|nose|cheeks|chin ~2 numb|frozen ~5 cold|freezing|wind|winter|frost|snow
		cold|freezing|winter|frost|snow ~5 numb|tingl*|frozen
		chest freezer|drawers|wig|hair|rig|pack|mount|deep
		hit ~1 head ~2 target|number|nail
		no limits|limit|restrictions|restriction
		operation ~1 overtime
		sweat|sweating ~1 small stuff
		lost|stuck for words
		living out of ~1 suitcase|bag|box|car|van
		break|breaks|broke ~1 heart ~1 to
		doctors|at|the|from surgery ~2 car|till|until|shift|at|park|desk|reception
		work|works|working ~3 surgery
		smart watch
		pain|symptom|injury|fever|cough|illness free
		in|into ~1 head ~1 that|to|now
		suicide|suicidal pace|sprint_finish|corner|pass|speed|attack|sprint|break|tempo
		hill|climb|wind|price|that|gradient ~2 makes|made ~1 me sick
		breathless with
		#degrees ~1 kph|kmh|km|kmph|mph|watts|avg|average|kilometres|miles|k
		temp|temperature ~1 will|going|forecast|outside|tomorrow
		cough drops|sweets|syrup
		puked|puke ~1 guts up ~1 haha|lol|metaphorically
		nearly|almost puked|vomited|threw|barfed ~4 haha|lol|brutal
		brutal|epic|hard ~2 nearly|almost puked|vomited|barfed
		passed out of
		covid rules|rule|test|tests|jab|vaccine|vaccination|certificate|booster|times|pandemic|lockdown
		flu jab|jabs|shot|vaccine|vaccination|season
		bug for
		dizzy with
		shivering|shivered ~3 start|line|rain
		die|died|dying of embarrassment|shame|boredom|heat|thirst|hunger
		chest = strap|straps|press|day|belt|monitor|pocket|band
		strap ~3 chest ~3 battery|dead|flat|broken
		swim|swimming|breast|front|back|crawl stroke|strokes
		stroke rate|drills|drill|volume|count|length
		stroke of ~1 luck|genius|midnight
		bike fit|fits
		fit ~1 booked|session|appointment
		fit of laughter|giggles
		had ~1 fit when|at ~2 saw|price|bill
		killed|murdered ~1 me|us
		is|was|be|pure|thats|its|total = suicide|suicidal
		heart ~1 skip*|stopped|jumped|fluttered|stops|sank ~2 when i|we saw|see|opened|read|heard|got
		heart attack prices|price|bill|money|fee
		sick ~1 about
		puking|puked rainbows|rainbow
		cant|cannot|couldnt|wont ~2 go on ~1 sunday|monday|tuesday|wednesday|thursday|friday|saturday|sun|mon|tue|tues|wed|thu|thurs|fri|sat|ride|trip|holiday|camp|weekend
		cant|cannot|couldnt|wont ~1 do|make|manage ~1 sunday|sundays|monday|mondays|tuesday|tuesdays|wednesday|wednesdays|thursday|thursdays|friday|fridays|saturday|saturdays|mornings|evenings|nights|weekends|weekdays|intervals|early
		here ~1 at|in ~1 work|office|school|rain|cold
		concussed|concussion|whiplash just|from watching
		palpitations|palpitation|fainted|faint|collapsed ~2 when i|we|you ~1 saw|seen|see|read|opened|got ~4 price|prices|fee|fees|bill|cost|costs|total|invoice
		worried sick ~2 about
		temperature|temp ~4 is|was 36
		route|road|course|descent|track|loop|bends ~4 funny turns
		max|maximum|peak|zone hr|heart_rate|pulse
		gave|gives|giving|give ~1 me|us ~2 shivers|chills|goosebumps
		shivers|chills|goosebumps ~1 of ~1 excitement|joy|anticipation|delight
		cold shivers ~1 of
		stomach ~1 knots ~1 about|before|thinking|for
		nose runs ~1 when|whenever|in|on
		hayfever|hay_fever|allergy|allergies|allergic|pollen|dust|pepper ~3 sneez*|sniff*|nose|runny_nose
		sneez*|sniff*|runny_nose ~3 hayfever|hay_fever|allergy|allergies|pollen|dust|pepper
		hungover|hangover ~4 headache|sick|rough|head|dizzy|sore_head|throwing_up|ill
		headache|sick|rough|sore_head|ill ~3 hungover|hangover|beers|wine|party
		seizure of
		first aid ~6 concussion|fainting|stroke
		first aid ~6 seizure|seizures|fractures|burns
		concussion|cpr|fractures ~4 first aid
		unit|computer|app|watch|gps|laptop|phone|boss|bot ~1 had|has|having ~1 fit|seizure|stroke|meltdown
		know|no where i was ~4 gps|route|map|signal|turn
		dizzy ~1 from ~1 laps|circles|corners|hairpins|roundabout
		collapsed|collapse|collapsing = the|my|our ~1 stand|tent|trainer|turbo|table|umbrella|gazebo|rack
		passed|passing ~2 out ~1 corner|bend|turn|saddle
		climb|climbs|hill|hills|that|this|plan|intervals|session|sessions|wind|gradient|reps|turbo|coach|course|col|ramp|work ~3 killing|kills|kill|killed ~1 me|us
		kill|killing myself ~3 laughing|laugh|over|on|this|that|up|trying|with
		murder|murdered
		id kill for
		dying|die|dead ~2 to|for|of|from ~2 race|ride|know|go|get|try|see|wish|see|laughing|laughter|boredom
		die from wish
		wanted|want ~1 die ~4 climb|hill|rep|interval|ramp|race
		heart ~2 in ~2 mouth|throat|it
		heart ~1 isnt|not|wasnt ~2 in
		heart rate|rates ~2 high|low|zone|zones|was|cap|drift|monitor|higher|lower|5|numbers|data|target|today|at
		heart ~1 skip*|stopped|sank|jumped|leapt|missed|skipped ~2 beat when|seeing|at ~1 i|profile|price|saw|the
		heart ~2 sank|sunk|bleeds|melted|warming
		broke|breaks|breaking|broken ~1 heart ~3 missing|losing|when|see|seeing|podium
		heart|lung breaker|breaking|buster|busting
		by heart
		nearly|almost|had|have|a|gave|me|cost heart|hart attack ~4 when|price|fee|seeing|at|saw|bill|cost|entry|email|wheels
		cost ~2 heart attack
		gave|give|gives|giving ~1 me|us ~1 heart|hart attack
		cough|coughed|coughing up for
		seeing|see|saw stars ~6 sky|moon|dark|clear|clouds
		had ~1 stroke ~1 trying|when|reading|at|looking
		cough|coughed|coughing|coughs ~1 up ~1 lung|lungs|#number|quid|euro|euros|money|cash
		spit|spat|spitting|lost ~2 lung|lungs
		lungs ~2 fire|floor|burning|screaming|out
		took|takes|take ~1 breath ~1 away
		breath of fresh
		hold|holding|held my breath
		breath|breather test
		race|spring|cabin|gold|saturday|classics fever
		hay fever
		hayfever
		fever pitch
		sick ~1 of
		hill|climb|view|bike|wheels|ride|descent|col|route|course|trail|day|tune|tunes|jump|jersey|kit|time|segment ~1 is|looks|was|looked|look ~1 sick
		look|looks|looked sick
		sick = day|leave|note|burn
		faint noise|line|creak|click|clicking|sound|smell|hope|memory|light|signal|hearted|rattle|ticking|praise|chance
		passed|passing|pass|past out ~4 sofa|couch|bed|asleep ~3 slept|8pm|9pm|early|like|log|ride|happy
		nearly|almost passed out when|at|seeing
		passed out flyers|leaflets|numbers|bottles
		out of breath ~6 top|climb|effort|efforts|sprint|sprints|rep|reps|interval|hill|ramp|recovered|expect
		lose|losing|lost|loose ~1 head ~2 with|trying|over|it|at|fit
		head ~2 is ~1 wrecked|melted|fried|mush|in|not
		head ~1 kicked in
		off ~1 top ~2 head
		head over heels
		head ~1 down ~1 hammer|push
		smash|smashed|smashing|bang|banged|banging|bash|hitting|beating ~1 head ~2 against|on|off ~2 wall|desk|keyboard|brick ~4 pair|trying|zones|setup|app|watch|with|plan|again|this|over|file
		head ~1 against ~2 wall ~3 pair|trying|watch|app
		headbanging|headbanger
		gives|gave|giving|give|got ~1 me|us ~1 headache|headaches
		headache ~1 to plan|organise|set|arrange|of
		pain|pains ~2 in ~2 neck|arse|ass|butt|backside|bum
		pain cave|train|locker|face
		legs|leg ~2 broken|fell|dead|gone|destroyed|shattered|smashed|ripped
		tore ~1 legs
		legs off me
		ego ~3 bruised|broken
		bruised ego
		bones feeling
		broke|broken|break|snapped|cracked|busted|bust ~2 spoke|spokes|chain|frame|record|records|pb|derailleur|hanger|rim|wheel|gear|cable|pedal|bottle|cage|mount|saddle|seatpost|stem|bike|screen|phone|cleat|cleats|shoe|axle|bolt|carbon|tubeless
		chain|spoke|frame|wheel|rim|cable|hanger|bottle|cage|saddle|phone|screen|bike|cleat|derailleur|gear|pedal|watch|computer ~3 broke|broken|cracked|snapped|crack|bust|smashed
		break ~1 away
		breakaway
		broke away|even|free
		broke|broken ~1 hour|minute|duck|course
		crack on
		collapsible
		collapsed ~3 couch|sofa|bed ~2 happy|after|with|pizza
		collapsed|collapse|flopped = on|onto|into|in ~2 armchair|sofa|couch|settee|bed|chair|deckchair|hammock ~6 tea|beer|slept|nap|demanded|happy|rpe|soundly|pizza|telly|effort|cake
		sick|gutted ~1 parrot
		want ~2 here ~1 at ~1 work|school|office|meeting
		cough|coughed|coughing|choked|spluttered ~4 fly|midge|bug|gnat|wasp|insect|crumb
		bike|bikes|gears|gear|car|van|laptop|boiler|computer ~2 had|having|has|suffered ~2 stroke|heart_attack|seizure
		temp|temperature|degrees ~3 garden|garage|outdoor|outside|car|shed|patio ~1 thermometer
		back = wheel|brake|tyre|tire|to|home|at|on|from|of|roads|road|pocket|light|end|straight|into|by|before|in_time|soon|tomorrow
		neck and neck
		knee|arm|leg|shoe|toe|neck warmer|warmers|pads|pad|covers
		shoulder season|bag|of
		hard shoulder
		foot|toe overlap|path|down|pump
		cold bottle|feet|hands|toes|fingers|drink|water|weather|start|coffee|beer|day|morning|wind|rain|air|legs|snap|out|front|shower|brew|pizza
		felt|feel|feeling|it|bit|so|too|proper|very ~1 cold ~1 on|at|out|outside|descent|for|today|this
		outside|road|water|air|room|colour temperature
		temperature ~3 outside|forecast|drops|drop|dropped
		confused ~1 about|by|with|which|what|how|why|if|whether|re
		plan|zones|app|bot|schedule|calendar|week|numbers|this|you|screen ~3 confus*|confusing
		confusing
		dead ~1 legs|battery|strap|end|flat|heat|last
		burn|burning|burnt|burned ~1 matches|legs|quads|thighs|calories
		legs|thighs|quads|calves ~3 burn|burning|burned|ache|aches|aching|sore|heavy|hurt|hurting|dead|screaming
		pain|sore|ache|aches|soreness ~3 legs|quads|calves|thighs ~6 gym|squats|after|normal|muscles|session
		gym|squats ~4 sore|stiff|ache
		stiff ~3 quads|legs|calves
		attack|attacked|attacks ~2 hill|climb|last|kilometre|group|final|early
		power|pressure ~2 meter|drop|tyre|tyres|tire|tires|psi|bar|washer
		tyre|tyres|tire|tires|front|rear|air|high|low|correct pressure|pressures
		bottle|jar|cup|thermos|bidon lid
		heads|heading to|for|out|off|home|back|into|north|south|east|west|towards
		i|we|ill|well|and|then|lets|to|will|gonna|going|might = head = to|for|out|off|back|into|over|down|up
		head = start|out|home|for|north|south|east|west|towards|over
		head ~1 didnt|did_not|never|not ~1 touch|hit|bang
		temp|temps|temperature ~1 normal|fine
		lights out ~2 at|by|10|11|early|#number
		lights ~2 out ~3 tunnel|tunnels|night|battery
		black out|outs ~1 dates|curtains|blinds
		hit|hitting|hits wall|gym|target|numbers|watts|pb|rollers|turbo|snooze
		hit|hitting|hits target|numbers|watts|zones|power
		hit|hitting the road ~1 at|by|early|before|for|again|soon|tomorrow|now|jack|late
		like|than|as ~1 it|i|they|we used to
		like|than|as ~1 last winter|year|season|summer|spring|autumn|time
		tore|torn|ripped|scratched|scuffed|scraped|wrecked|ruined ~3 shorts|bibs|bib|jersey|kit|tights|glove|gloves|jacket|tape|lycra|sock|socks|overshoe|overshoes|shifter|hood|hoods|saddle|visor|paint|sidewall|skinsuit|leggings|warmers|warmer
		tore|torn up ~1 route|form|map
		hole ~3 knee|elbow|hip|bum ~2 tights|bibs|warmers|jersey|shorts|kit
		knee|elbow|hip ~2 tights|bibs|warmers
		out|outta of|the saddle|back|puff|gas|legs|juice|steam|fuel|door|pack|bunch|town|petrol|water|food|time|gears|sight|zone|shape
		out of saddle
		gone in #number
		run|ran|running out of
		$xray came|come|all ~1 clear|clean|fine|normal|ok|good|negative
		$xray clear|clean|fine|normal|ok|good|negative|nothing|showed_nothing|perfect
		clear|clean|normal|negative $xray
		concussion|concusion test|tests|check|protocol|testing|screening|course|talk|training|baseline|policy|rules|workshop|awareness ~1 negative|clear|passed|fine|done
		concussion course|talk|policy|rules|workshop|awareness
		$doc ~1 $said ~2 fine|good|ok|clear|normal|ride_on|ride_as_normal|train_as_normal|cleared|good_to_go
		buckle|strap|visor|magnet|peak|clip ~3 helmet|lid
		mirror ~3 helmet|lid ~3 broke|broken|fell|loose|came|snapped|lost|wobbly|rattles|clip
		helmet|lid buckle|strap|visor|mirror|magnet|peak|light|cam|camera|cover|bag|shop|brand|colour|size
		$thing ~1 is|are|was|were|looks|look|looking ~2 sick
		$thing look|looks|looked|so|is|are sick
		how sick
		sick = $thing
		sick = new|fast|long|little|big = $thing
		that|was a sick
		$thing last|this|on ~1 night|morning|sunday|saturday|weekend was sick
		eye ~1 on ~1 ball
		break|broke ~1 ice|news|bank|habit|camp|fast|even
		break|breaking in shoes|shoe|saddle|cleats
		lost|lose sight of
		too fat for ~1 climb|hill|jersey|bibs|bike ~2 haha|lol
		fat bike|bikes|tyres|tyre|tires
		left|right|one|both ~1 side|crank|shifter|pedal|lever|cleat|shoe ~2 quit|quits|stopped|died ~2 reading|working|sending|clicking|shifting|again
		legs ~2 quit|stopped|gone|empty|dead|died
		lights|light ~3 side ~2 died|dead|out
		heart|hart ~2 in ~1 right
		heart ~2 set ~1 on
		young|big|heavy|light at heart
		heart ~1 of ~1 town|city|alps|valley|club
		cross ~1 my|fingers heart
		from|with ~1 bottom ~1 heart
		lost|lose heart
		change of heart
		head ~1 for|to|over ~1 hills|coast|cafe|home
		bang|banging ~1 tune|tunes|day|ride
		legs|quads|calves|thighs|arms|wheels|bike|motivation|wallet|brain ~2 fainting|fainted|faint|fainty
		pass|passed|passing|passes out ~2 drinks|drink|bottles|bottle|leaflets|leaflet|flyers|gels|gel|cake|cakes|sweets|medals|maps|numbers|bananas|bidons|sponges|food|jerseys|kit|programmes|tickets|certificates|prizes|gloves
		blackout|black_out|power_cut|powercut ~3 street|house|village|town|area|estate|building|gym|city|office|neighbourhood|neighborhood|electricity|power|all_of_europe
		throw|throwing|threw|throws up ~1 hands|arms|hand
		throw|throwing|threw|throws|thrown up ~2 dust|gravel|mud|stones|spray|ideas|idea|questions|question|results|error|errors
		till|until|til|till_i|until_i ~1 puke|vomit|drop|faint|barf|collapse|spew ~3 saying|joke|rule|mentality|club|school|kind|style
		confusion|muddle ~1 about|over|with|around ~3 plan|plans|schedule|week|day|days|race|races|date|dates|settings|zones|calendar
		confused ~~3 is|was it|that ~4 hard|easy|long|ride|intervals|race|rest ~4 monday|tuesday|wednesday|thursday|friday|saturday|sunday|today|tomorrow
		finished|completed ~3 antibiotics|antibiotic ~3 weeks|month|months|year|years|last|ago
		antibiotics|antibiotic ~2 finished|ended|done|over ~3 weeks|month|months|last|ago
		head ~2 against ~1 wall|walls|desk ~1 when_i_see|when_i_read|whenever_i|plan|plans|frustrat*|trying|over_this
		want|wants|wanted|wanna ~2 die ~2 when|whenever|every_time ~2 alarm|boss|email|monday
		wheez*|groan*|creak*|whin* ~5 turbo|bike|trainer|car|van|engine|radiator|boiler|bearings|chain|freehub ~1 is|was|does
		like|as_if|as_though ~1 i_ate|i_had_eaten|i_hadnt_eaten|id_eaten|ive_eaten ~2 nothing|for
		notice|miss|care|mind|matter ~1 if_i ~2 skip|skipped|skips|miss|missed|shorten|shortened|leave_out|left_out|cut|swap|swapped
		notice|miss|care|mind|matter ~1 if_i ~2 rode|ride ~5 less|more|shorter|longer|easy|easier|minutes|min|hour|hours|only|home|alone|extra|today|tomorrow|instead|indoors|later|earlier
		wind|headwind|crosswind|shift|plan|climb|hill|news|price|sleep_loss knocked|knocks|knock me|us ~1 out
		bang on ~1 target|time|pace|plan|schedule|money|form|today
		hit ~1 head ~1 on ~1 nail
		use|using ~1 head|heid
		head|mind ~1 games|space|start|case
		get|getting|got ~1 head ~1 around|round|down|in_gear|start
		head|heads ~1 up ~1 for|lads|folks|all|everyone|guys
		heads|head up
		cool|clear|level head
		two heads
		head ~1 says
		over ~1 head ~1 with|in
		hot|red headed
		heart|lung|lungs = out
		ride|rode|raced|ran|work|worked ~1 heart|lungs|guts ~1 out
		break|broke|breaks|broken ~1 pace|silence|rules|rule|rhythm|tape|seal|back_of
		high|good|bad|low temperature|temp ~1 outside|today|forecast
		cold ~1 enough|spell|snap|front|one|ones|as|wet|and_wet|turkey|sunday|commute|ride|out|outside|brew|cuts|tyres|garage|room|press|light|dark
		ride|riding|rode|training|train|go|went|out|racing ~2 in ~1 cold
		cold ~1 today|tonight|tomorrow ~1 so|layers|gloves|outside
		cough ~1 up ~1 cash|money|fee|quid|euros
		coughed|coughing|cough|coughs up ~2 entry|fee|fees|money|cash|dosh|quid
		pain|aches ~2 to book|fix|set|get|clean|park|mount|enter|organise|change
		paint|pain ~1 in ~1 wallet
		growing|good|sweet|nice|happy pain|pains|ache|suffering
		stroke ~2 smoother|smooth|feels|cadence|circles|power
		pedal stroke|strokes
		fitted|fitting ~2 mudguards|tyres|tyre|bars|rack|frame|bag|cranks|cassette|chain|lights
		fat ~1 bike|tyres|tyre|tires|max|burning|burn|oxidation
		die|died|dead|dying ~1 battery|phone|lights|light
		battery|phone|computer|light|lights|strap|unit|sensor|powermeter ~2 died|dead|dying|flat|passed_out|fainted|collapsed
		fitness|form|power|pace|motivation|numbers|ftp|speed|season|wheel|tent|bunch|rack|shed|group|market|chair|bridge|echelon|gazebo|attack|plan|deal ~2 collapsed|collapsing|collapse
		bang|broke|broken ~1 lamp|fridge|boiler|kettle|van|car|washing
		cramp|cramps|cramped ~2 calf|calves|quads|hamstring|legs|both
		swollen ~1 river|rivers|wallet|inbox|wood
		sprain*|strain ~1 gauge
		injury ~1 time|prevention|proof|list|free
		pressure ~1 on|to|from ~1 win|boss|work|race|perform|organiser|me_to
		under pressure
		peer|work|time|air|tyre|tire|rim pressure
		dizzy ~1 new
		blind ~1 corner|corners|bend|bends|date|summit|spot|drop
		double ~1 day|session|bubble|chainset|ring|punctur*|espresso|figures
		stomach|gut|guts ~1 for ~1 it|this|that|more|another
		butterflies
		guts ~1 to ~1 attack|go|try
		spit ~2 rain|dummy|raining
				run|long|easy|tempo|interval|do|my|park|recovery|trail the runs
		runs ~2 smooth|smoothly|well|fine
		bug ~2 app|bot|plan|software|firmware|report|fix|bite|bites
		virus scan
		sore losers|loser|loser's
		threshold|tempo|vo2|intervals ~2 hurt|hurts|felt|painful|hard
		blood ~1 test|tests|donor|donation|sweat|and|moon|donated
		gave|give|giving blood
		crash|crashed = app|computer|unit|phone|file|upload|software|site|bot
		unit|app|computer|phone|bot|watch|site ~2 crash|crashed|froze|died
		crash course|diet|pads|test
		numb bum|arse|butt|bits
		numb fingers|hands ~3 cold|freezing|winter|descent
		dizzy heights|height
		dizzying
		temple ~1 of|street|road
		stone|stoned cold
		operation ~1 times|hours|bikini|of
		shot in ~1 arm
		give|id my ~1 right|left arm ~1 for
		jaw dropping|dropped
		eating problem ~1 solved
		overdose|overdosed|od ~2 on|of ~2 caffeine|coffee|cake|gels|climbing|sugar
		starving|starved ~2 after|now|when|since
		want|wanna ~1 purge`
