package care

// englishClasses are words that mean the same in wordings.
var englishClasses = [][2]string{
	{"chest", `chest chested chset cheast chets breast breastbone breast_bone sternum rib_cage ribcage chestbone torso`},
	{"heart", `heart hart heartbeat heart_beat ticker hearth`},
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
		caved_in trashed split_down dead did_its_job saved_me saved_my took_it took_one took_some took_the caught_the hole chunk fucked gone_at crumpled totalled`},
	{"crash", `crash ate_dirt ate_tarmac eat_tarmac eating_tarmac ate_asphalt ate_gravel ate_the_road ate_concrete kissed_the_tarmac kissed_the_road kissed_the_floor bit_the_dust crashed crashing crashd fall fell fallen felt_off tumble tumbled spill spilled stack stacked came_off come_off coming_off went_down going_down hit_the_deck hit_the_ground hit_the_tarmac hit_the_road over_the_bars over_the_handlebar
		over_the_handlebars otb slid slipped pile_up pileup wipe_out wiped_out wipeout accident collision collided knocked_off decked smacked clattered got_hit car_hit car_door kissing_the_road prang shunt came_a_cropper face_plant faceplant* bounced`},
	{"headsign", `headache headaches head_ache dizzy diziness dizziness dizy foggy fogy fog fuzzy nausea nauseous nauseated remember forgetful lights_are light_is light_hurts bright spaced_out spacey sleepy vomit* threw_up throw_up throwing_up puked confused blurry blurred
		blurring ringing whistling feel_sick sicky feeling_sick bit_sick been_sick woozy dazed seeing_stars saw_stars see_stars memory head_hurts head_aches sore_head head_pounding head_thumping head_is_spinning light_disturbs`},
	{"breathless", `breathless breathles breathlessness breatless short_of_breath short_of_breth shortness_of_breath out_of_breath gasping gasp gasps wheezing wheezy wheeze puffing panting puffed winded fighting_for_air fighting_for_breath struggling_to_breathe struggling_for_breath
		cant_breathe cant_breath couldnt_breathe hard_to_breathe breathing_hard breathing_heavy heavy_breathing cant_catch_breath breath_back get_my_breath catch_my_breath catching_my_breath dont_get_air get_air`},
	{"rest", `sofa couch bed sat sitting lying laying rest resting desk nothing stairs kitchen chair idle telly tv talking sentence sentance asleep sleeping armchair still home floor night standing_still`},
	{"cant", `cant cannot can_not couldnt could_not couldn cudnt cnt unable struggl* hard difficult difficulty trouble tough barely hardly`},
	{"dont", `dont didnt doesnt cant cannot couldnt do_not did_not can_not could_not no not didn forgot forget no_longer`},
	{"dizzy", `dizzy dizy dizziness diziness lightheaded light_headed giddy woozy wobbly head_turning head_spinning spinning vertigo spaced_out nauseous nearly_fell`},
	{"doc", `doc docs doctor doctors docter doctr gp consultant cardiologist surgeon physio phsyio physios physiotherapist hospital nurse medic medics specialist dr a&e physician cardio_guy cardio_woman cardio_doctor cardio_nurse cardiology heart_doctor heart_specialist er_doctor urgent_care osteopath osteo orthopod paramedic paramedics radiographer pharmacist clinic neurologist`},
	{"said", `told tell tells said says say saying ordered orders wants want signed prohibit* forbid* forbad* banned advised advises advice insists insisted recommends reckons reckoned thinks suspects warned put prescribed confirmed`},
	{"ride", `ride rides riding rode bike biking cycling cycle pedal pedals pedalling pedaling pedaled pedalled pedalstroke pedal_stroke downstroke climb climbing turbo rollers bars drops saddle push pushing stand aero session spin effort efforts interval intervals`},
	{"eat", `eat eats eating ate eaten food meal meals dinner tea lunch breakfast bread cake calories`},
	{"side", `one_side left right left_side right_side half side`},
	{"numb", `numb numbness dead weak tingling tingly tingles tingle asleep sleeps droopy drooping drooped droop drooping drop dropped paralysed paralyzed limp pins_and_needles saggy sagging`},
	{"me", `i me my im ive myself`},
	{"went", `went go gone going goes turned`},
	{"temp", `temp temperature temprature temperture tempature thermometer therometer fever`},
	{"tummy", `stomach stomache stomack stomac tummy belly gut guts bowel bowels tum`},
}

// ordinaryClasses are people, things and what the words of scopes need. They count only as they are spelt.
var ordinaryClasses = [][2]string{
	{"person", `mate mates friend friends pal buddy clubmate teammate team_mate captain flatmate housemate roommate lad lads guy guys bloke blokes fella man men woman women girl girls boy boys baby babies toddler toddlers nephew niece rider riders junior juniors bird missus student students teacher fan spectator marshal cyclist runner driver horse fellow pro pros leader bunch team
		child children kid kids kiddo kiddos dog dogs cat cats pup puppy boss neighbour neighbours neighbor neighbors colleague colleagues coworker coworkers cousin cousins uncle aunt auntie gran granny grandad grandma grandpa nan member members treasurer sweeper chap chaps lodger tenant landlord landlady organiser organizer mechanic visitor newbie newbies newcomer lady ladies gentleman
		old_boy old_fella oldie twins twin triplets grandson granddaughter grandkids grandchild daughter_in_law partner training_partner carpool_buddy training_buddy riding_buddy owner volunteer volunteers steward chairman chairwoman chairperson secretary president plumber builder postman courier babysitter nanny childminder au_pair client clients customer patient passenger commuter walker pedestrian jogger tourist stranger scout trainee apprentice assistant manager
		foreman supervisor sprinter climber domestique triathlete racer racers opponent rival rivals youngster youngsters teen teenager teenagers pensioner veteran vet vets novice novices beginner beginners bridesmaid groom bride host guest guests relative relatives family pony goat hamster rabbit cyclists photographer commissaire timekeeper sub replacement hubby husband wife brother bro sister sis girlfriend boyfriend gf bf dad father mum mom mother son sons daughter daughters missis dads mums moms other_half better_half inlaws inlaw stoker`},
	{"kin", `mate brother sister wife husband hubby partner gf bf girlfriend boyfriend dad dads father mum mums mom mother son sons daughter daughters kid kids kiddo kiddos children dog dogs boss bosss neighbour neighbours neighbor colleague colleagues coworker friend cousin uncle aunt nan nans gran grandad grandma grandson granddaughter teammate teammates flatmate housemate missus toddler lad bloke guy fella buddy clubmate inlaw twins lodger stepson stepdaughter kiddos other_half mates brothers sisters wifes husbands hubbys partners gfs bfs girlfriends boyfriends fathers moms mothers childrens neighbors coworkers friends cousins uncles aunts grans grandads grandmas grandsons granddaughters flatmates housemates toddlers lads blokes guys fellas buddys clubmates inlaws lodgers stepsons stepdaughters other_halfs`},
	{"thing", `skinsuit numbers number suit wheel wheels wheelset paint job paintjob bars bar session climbing weekend shoes set groupset pace sprint road gravel frame bike bikes ride rides descent climb hill jersey kit view views route course trail tune tunes jump helmet lid power watts singletrack track finish line stem cranks crank saddle tyres tires tyre bottle socks shades glasses photo photos pic pics video vid footage segment avg speed tan legs time times result setup build design colour colours color colours logo website update feature app plan weather tailwind loop berms drop hairpins tarmac surface sunset sunrise cafe cake attack move breakaway win`},
	{"xray", `xray xrays x_ray x_rays scan scans mri ecg bloods echo ct blood_test blood_tests results result check_up checkup ultrasound`},
	{"complaint", `pain pains ache aches soreness cough cold headache headaches niggle niggles bug swelling stiffness twinge twinges sniffles sniffle lurgy dizziness nausea  sore_throat tightness injury tendonitis sciatica rash`},
}
