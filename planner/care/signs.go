package care

// signs are what medicine's plain lists warn of besides the heart, the lungs, the
// brain and the heat: a part of the body, or what comes out of it, beside what is
// wrong with it. Grave ones stop, those that are ordinary words too ask.
var signs = []group{
	// A clot in a leg, and what it does when it travels.
	{Doctor, Stop, false, `
		$limb <10> $fatter ~~12 other|others|flight|flew|plane|bus|coach|drive|travel|warm|hot|red|tender|sore|one
		calf|leg|thigh ~6 #number cm|centimetres|centimeters
		one|left|right ~2 $limb <8> $fatter|hard|rock|wood
		$limb <6> double_size|double_the_size|twice_the_size
		$limb <8> hard|warm|hot <6> warm|hot|hard ~~8 size|left|right|only
		$limb <8> $fatter|hard|rock|wood|tender <10> warm|hot|red|blue|purple|flight|flew|plane|bus|coach_trip|long_drive|cast|op|operation
		$limb ~4 balloon|football|melon ~~12 red|hot|warm|roasting|purple|drive|flight
		$limb ~3 blew_up|blown_up|swelled_up|swollen_up
		arm <4> purple|blue <6> fat|swollen|veins
		$fatter $limb <8> warm|hot|red|flight|plane
		veins ~3 standing|bulging|sticking ~4 shoulder|arm|chest`},
	{Emergency, Stop, false, `
		knife|stab|stabs|stabbing|sharp|catch|catches|hurts|pain <10> breath|breathe|inhale ~~12 flight|flew|fly|plane|haul|puffed|puff|breathless|winded|blood|crash|heart
		$breathless|puffed|puff|winded|short_of_breath ~~10 flight|flew|long_haul|plane|cast|birth
		cough|coughing|coughed <4> rusty|foam|froth*|pink|bloody
		woke|wake|waking|woken ~2 gasping|breathless|choking
		have|had|need|must ~1 sit|sleep|prop ~2 up|upright|propped ~2 to|at_night|for ~2 sleep|breathe|breath|air`},
	// Blood that does not stop, or comes from where none belongs.
	{Emergency, Stop, false, `
		blood|bleed|bleeding|nosebleed|cut|gash|wound|nose|shin|leg|arm|finger|tip|elbow|knee|nick ~~12 towel|cloth|bandage|bandages|dressing|plaster|pad|gauze|shirt|sock ~2 full|soaked|through|drenched|red|dripping
		plaster|bandage|dressing|cloth|towel ~3 number|third|second|fourth|another|still ~6 red|wet|blood|soaked|already|bleed*
		third|second|fourth plaster|bandage|dressing|towel
		bleeds|bleed|blood|soaked|bleeding ~3 through ~4 towel|cloth|bandage|bandages|dressing|plaster|sock|shirt
		cut|wound|gash ~4 runs|open ~4 runs|since|pressing
		soaked|soaking|bleeding|bled|pumping|pumped|running|coming|dripping ~2 through ~2 towel|cloth|bandage|dressing|pad|pads|gauze|shirt|plaster
		$stopsnot ~2 bleed*|oozing|blood|pumping|dripping
		blood|bleeding|bleed|nosebleed ~5 $stopsnot ~2 stop|stopping|stops|clot|slow
		blood|bleeding|nosebleed ~6 $stopsnot
		bleeding|nosebleed|bleed|oozing|pumping ~5 hour|hours|minutes|min ~4 now|still|later|going
		spurt|spurts|spurting|squirt|squirting|gush|gushing|gushes|pumping ~3 blood|out|through|when
		blood ~2 spurt*|squirt*|gush*|pumping|everywhere_and
		deep ~1 cut|gash|wound
		cut|gash|wound|hole ~3 to ~1 bone
		see|seeing ~2 bone|fat|tendon
		soak*|fill* ~3 pad|pads ~3 hour|hourly
		stool|stools|poo|poop|crap|shit|bowel|toilet|loo|bog|motions ~4 black|tar|tarry|maroon
		black|tarry|dark ~2 sticky|tarry ~2 poo|poop|stool|stools|shit
		black|tarry poo|poop|stool|stools|shit|motions
		red|blood|bloody ~3 bowl|toilet|poo|poop|stool|stools|diarr*
		diarr*|runs|squits|poo <5> blood|bloody
		brought|bring|bringing|threw|throwing|puk*|vomit*|spat|sick|sicked|chucked ~4 brown|coffee_grounds|black|red|blood|bloody
		vomit*|puk*|sick|threw ~3 green|bile`},
	// Urine that is dark after hard work, or does not come.
	{Doctor, Stop, false, `
		$urine <6> cola|coke|coca|tea|brown|brownish|rusty|rust|black|port|red|pink|bloody|blood|coffee|dark ~~14 $muscles|thigh|legs|legs|arms|camp|marathon|crossfit|since|race|event|days|ride|sore|hard|looks|looked|turned|went|was|is
		peed|pissed|weed ~3 cola|coke|tea|brown|rust|black|red|blood|coffee
		water|wee ~1 brown|red|black <10> legs|thighs|muscles|ride
		$urine ~3 like|colour|color|of|looks|coloured|colored|turned|went|came|gone|goes ~3 cola|coke|coca|tea|brown|rust|port|coffee|stout
		cola|coke|tea|rust|stout|port|coffee ~1 coloured|colored|colour|color ~1 $urine
		$urine|peeing|pissing|weeing ~1 cola|coke|tea|brown|rust|blood|red|pink|claret
		not ~3 peed|weed|pissed ~3 since|all|for|today
		pee|wee ~2 almost|nearly|hardly ~1 nothing|none
		$notpee ~1 $urine ~4 since|hours|all|yesterday|today|for
		hardly|barely|cant|couldnt|not|little|no ~2 $urine|pee|wee ~5 since|hours|all_day|yesterday|today|last_night
		not|havent ~1 had ~1 a ~1 wee|pee|piss
		cant|couldnt|not_able|unable ~2 pee|wee|urinate|piss
		$muscles|arms|legs ~4 rock|solid|swollen|stone|wood|bend|straighten <12> $urine`},
	// Nothing stays in, or the belly is hard.
	{Doctor, Stop, false, `
		$cant|havent|not|couldnt|unable|dont|since|no ~4 keep|kept|keeping|hold ~4 down|in ~~8 days|day|pee|dizzy|yesterday|24
		#number|two|three|four|five|several|few days|day ~5 keep|kept|keeping ~4 down|in
		days ~3 since ~2 i ~1 kept
		#number|two|three|four|five|six|several|few ~1 days|day ~4 diarr*|runs|vomiting|squits|trots
		diarr*|runs|vomiting|squits ~4 #number|two|three|four|five|six|several|few ~1 days
		$tummy|belly|abdomen <6> board|wood|rock|stone|rigid|agony|unbearable|doubled|bent_double|excruciating
		$tummy|belly|abdomen|gut <8> pain|ache|hurts|sore|agony ~~14 double|upright|straight|stand|bump|bumps|fever|lower_right|right_lower|hours|pale|faint
		lower|low ~1 right ~2 side|belly|pain|tummy|bumps|hurts
		right ~1 lower ~2 side|belly|pain|tummy
		bar|bars|handlebar|stem|bar_end|horse|hoof|kick ~6 $tummy|belly|abdomen|spleen|liver|stomach
		shoulder ~1 tip ~3 pain|hurts|ache*
		landed|fell|hit|kicked ~5 side|ribs|belly ~~10 faint|pale|shoulder|dizzy
		bent|doubled|curled ~1 double|up|over ~5 pain|hours|stomach|belly|cramps|gut`},
	// Allergy.
	{Emergency, Stop, false, `
		sting|stung|bite|bitten|bee|wasp|hornet|nut|nuts|peanut|peanuts|almond|shellfish|shrimp|shrimps|prawn|prawns|egg|bar|gel|ate|eaten|eating|tablet|pill|antibiotic*|ibuprofen|swallowed <<16>> $airway ~3 $swells
		$airway ~3 $swells ~~14 stung|sting|bar|gel|nuts|ate|hives|itch*|40|k
		hives|wheals|welts|nettle_rash|itch* ~~10 wheez*|breath*|faint*|dizz*|throat|tongue|lips|voice|hoarse|swollen|swelling|closing
		wheez*|breath*|faint*|dizz*|hoarse ~~10 hives|wheals|welts
		eyelids|eyes|eye|face ~3 swollen_shut|closing|closing_up|puffing|puffed|swell|swelling|ballooned ~~10 bar|stung|sting|bee|wasp|hives|ate|nuts|breath*
		stung|sting ~4 throat|mouth|tongue
		swallowed|swallow ~2 wasp|bee|hornet
		stung|sting <12> dizzy|faint|breath*|wheez*|swelling|puffing|hives
		used|using|needed|jabbed|took ~2 epipen|epi_pen|adrenaline|jext
		epipen|epi_pen ~5 used|jabbed|needed|feel`},
	// Asthma that the inhaler does not help.
	{Emergency, Stop, false, `
		inhaler|puffer|reliever|ventolin|blue_one|salbutamol|albuterol ~8 $nohelp
		inhaler|puffer|reliever|ventolin|salbutamol ~4 empty|ran_out|forgot|left_at_home <<12>> wheez*|tight|breath*|puffed
		inhaler|puffer|puffs|goes ~~6 no_good|useless|no_use|still_tight
		every hour|two_hours ~4 inhaler|puffer|puffs
		inhaler|puffer <8> whistl*|wheez*|sentence|tight|breath* ~~6 still|cant|sentence|no|not|again
		inhaler|puffer ~4 #number|five|six|seven|eight|ten times ~6 still|today|cant
		spray|inhaler|puffer ~3 helps|help|works|work ~1 not|no_more|nothing
		spray|inhaler|puffer <<10>> whistle|whistling|wheez*
		inhaler|puffer ~3 every ~1 hour|two_hours|30|half
		#number|two|three|four|five|six|seven|eight|ten ~1 puffs ~8 still|nothing|not|cant|no
		$cant|only|just ~3 finish|say|speak|get ~3 sentence|sentences|words|word ~6 breath*|at_a_time|puff*|inhaler
		words ~2 at ~1 time
		only|just ~2 say|speak|talk ~4 words|word
		lips|fingers|mouth|nails|fingertips ~4 blue|bluish|grey|gray|purple
		blue|grey|gray|purple ~3 lips|mouth|fingers|fingertips|nails ~6 session|interval|intervals|turbo|rollers|ride|climb|after|set
		went|gone|turned|looked ~1 blue ~3 lips|mouth|face`},
	// Sugar.
	{Emergency, Stop, false, `
		$sugar <8> crash|dropped|dropping|drops|low|under|below|hi|high|over|keeps|down ~~12 type|insulin|shaky|confused|remember|passed|sweaty|pump|think|sick|woke|mmol|ketones
		$sugar ~4 1.9|2.0|2.1|2.2|2.3|2.4|2.5|2.6|2.7|2.8|2.9|3.0|3.1|3.2|3.3
		$sugar ~6 under|below ~1 3|3.5|4|60|50|70|54|three|four
		$sugar <6> #number|low|high|hi <14> sick|vomit*|ketones|pear|breath|thirsty|remember|confus*|shaky|sweaty|faint*|woke
		insulin|type_1|type_one|type1|t1|diabetic|diabetes <14> sick|vomit*|ketones|pear_drops|nail_varnish|acetone|hi|hypo|hypos|woke|confus*|shaky|floppy|breathing
		ketones ~3 #number|high|over|up
		ketone|ketones ~4 sick|vomit*
		breath ~4 pear_drops|pear|nail_varnish|acetone|fruity|nail_polish
		i|im|my_sweat ~1 smell|smells|smelling ~3 pear_drops|nail_varnish|acetone|nail_polish
		$sugar ~2 16|17|18|19|20|21|22|23|24|25|26|27|28|29|30 <12> t1|type_1|type_one|type1|diabetic|diabetes|insulin|smell
		diabetic|type_1|insulin <8> $sugar|puking|vomit*
		hypo|hypos ~4 again|ride|woke|twice|night|floor
		mmol|ketoacidosis|dka|hypoglyc*`},
	{Doctor, Stop, false, `
		thirst|thirsty ~4 all|always|constantly|non_stop <<14>> pee|peeing|weight|kilos|kg
		pump|insulin ~4 came_off|fell_off|missed|forgot|ran_out
		forgot|missed|ran_out|stopped ~4 steroid|steroids|hydrocortisone|insulin|epilepsy_meds|thinners|heart_tablets`},
	// Infection that spreads, meningitis.
	{Emergency, Stop, false, `
		stiff neck|nape <<14>> light|lights|rash|fever|temp|temperature|headache|head|spots|vomit*|sick|38|39|40|chin
		neck ~2 stiff ~~14 light|lights|rash|fever|temp|temperature|headache|head|spots|vomit*|sick|chin
		light|lights|bright ~4 hurt|hurts|kill|kills|unbearable <<10>> stiff|rash|fever
		rash|spots ~5 fade|fading|fades|glass|tumbler|bruises|purple|pinprick|disappear|blanch
		purple ~2 spots|rash
		fever|temp|temperature|39|38|40 <<10>> stiff neck
		mottled|blotchy ~2 skin|legs|hands`},
	{Doctor, Stop, false, `
		red ~1 line|streak|stripe|streaks|lines|track ~5 leg|arm|knee|armpit|groin|elbow|up|ankle|thigh|creeping
		line|streak|stripe ~3 creeping|going|moving|running|climbing ~2 up ~2 leg|arm|armpit|groin|thigh|shin|calf
		rash|wound|cut|graze|scrape|road_rash|bite|blister <<12>> shiver*|fever|pus|smells|stinks|delirious|39|38|streak|spreading
		shaking|rigors ~1 chills
		bed ~1 shook
		burning|stings|hurts ~2 pee|wee ~~8 back|kidney|fever|chills|flank
		tick ~8 rash|ring|bullseye|circle
		ring|bullseye ~1 rash
		bit|bitten|bite ~5 snake|adder|viper|bat|rabies
		dog bit|bite ~8 deep|rabies`},
	// The spine and the nerves to bladder and legs.
	{Emergency, Stop, false, `
		$cant|dont|no|not|without|lost|numb ~4 feel|feeling|control|sense|sensation ~6 need_the_toilet|toilet|loo|bladder|bowel|bowels|wipe|pee|wee|bathroom|saddle
		wet|wetting|soiled|pissed|peed|leaking|leak|dribble|dribbling ~2 myself|pee|wee|pants|bibs|bit ~~12 numb|back|legs|thigh|saddle|sciatica|tingl*
		numb|no_feeling|dead <5> down_there|between_my_legs|between_the_legs|groin|genitals|crotch|undercarriage|saddle_area|perineum|privates|bum ~~12 days|hours|wipe|pee|back|legs|toilet|still|since
		both|two|all ~1 legs|arms|hands|feet <6> tingl*|numb|weak|cotton|wool|electric|pins|shoot*|going_down
		pain|sciatica ~3 down ~1 both legs
		water ~2 not hold
		no ~1 feeling ~4 seat|saddle|legs|feet|hands
		legs|hands|feet ~1 without ~1 feeling
		$crash ~2 needles ~3 hands|feet|legs
		$crash ~8 see|seeing|saw ~2 two ~2 everything|all
		see|seeing ~1 two ~1 of ~1 everything ~6 since|after
		$crash ~~12 tingl*|numb|electric|pins_and_needles|cotton_wool|clumsy|weak|feel_my_legs|feel_my_hands|feel_my_feet
		tingl*|numb|electric|pins_and_needles|clumsy ~~12 since|after ~3 $crash
		$cant|dont ~2 feel ~2 legs|feet|hands|arms|toes ~~10 $crash|since|properly|fall|neck|back
		since|after ~2 $crash ~6 feel ~2 legs|feet|hands|arms
		electric|shock ~4 spine|neck|back|arms
		neck <6> $cant|wont ~3 turn|look|move <<12>> tingl*|pins|numb|fingers|arms|$crash
		neck <8> hurts|sore|pain|killing|stiff <<10>> tingl*|numb|pins|clumsy|drop_things`},
	// The head after a fall.
	{Head, Stop, false, `
		pupil|pupils ~4 big|bigger|huge|different|larger|uneven|size
		one ~1 pupil|pupils
		same ~1 question|thing|story ~3 again|over|times|repeat*|lol|and
		asking|asks|asked|ask ~3 same ~1 question|thing
		asked|ask|asking|repeat* ~4 #number|two|three|five|nine|ten|hundred|several|few times
		piece|pieces|recall|remember ~4 hour|after|how|together ~6 back|today|crash|deck|fall
		hit ~1 deck ~4 $cant
		bruise|bruised|bruising|black ~3 behind ~2 ear|ears
		both eyes ~3 black|bruised
		black ~2 both|two eyes
		watery|clear|salty ~3 nose|ear|ears ~6 fell|fall|crash|since
		since|after ~3 $crash ~8 slow|focus|snappy|sleep|sleeping|sleepy|sick|vomit*|words|slur*|headache|pupil|pupils|light|queasy|drowsy|dizzy|bright|worse
		headache ~6 worse ~4 hour|day|crash|more
		eyes ~2 wont|dont|cant|not ~1 focus`},
	// Speech, sight, strength that go, even if they come back.
	{Emergency, Stop, false, `
		hand|arm|leg|foot|fingers|thumb|grip|face ~3 stopped|quit|refused|gave_up|not|wouldnt|couldnt|didnt|wont|dragged|dragging|drags ~3 work|working|move|moving|obey|hold|lift|close|grip|walk|walking|few_minutes
		$cant ~1 lift|raise|move|use|hold ~2 right|left ~1 arm|hand|leg|foot
		hand|arm|fingers ~1 lets|let|letting ~2 fall|drop|slip
		word|words ~2 find ~1 not
		drop|dropped|dropping ~3 cup|bottle|fork|keys|glass|phone ~~8 numb|weak|hand|face|words|speech
		mouth|face|smile|lip|cheek|eyelid|eye ~4 hang|hangs|hanging|crooked|wonky|lopsided|slack|sagging|droop*|twisted|dribble*|one_side|side
		coffee|drink|water|tea|spit|dribble ~4 runs|dribbles|leaks|spills|falls|out ~3 corner|mouth|side
		dribble|dribbles|dribbling|drool* ~4 mouth|side|corner|mirror
		words ~3 soup|wrong|nonsense|jumbl*|gibberish|alphabet|salad|missing|garbled
		typing|typed|wrote|writing|write|talked|talking|talk|spoke|saying ~2 nonsense|rubbish|gibberish|gobbledygook ~~10 couldnt|ride|heat|after|night|find|minutes|weird
		$cant ~2 find|read|understand|write|form ~4 letters|words|sentence|handwriting|notes ~6 minutes|hour|made_no_sense|while|night|sense
		letters|words ~2 made|make|making no sense
		talk|talking|talked|speak|speaking|say|saying ~2 nonsense|rubbish|gibberish|crap ~6 drunk|hot|sun|water|heat|says|said
		walk|walking|walked|stagger*|ride|riding ~2 like ~1 drunk|drunken|sailor
		says|said ~2 i ~2 talk|talked|talking|speak|walk|walked ~3 nonsense|drunk|funny|rubbish|weird
		arm|leg|hand|foot|fingers ~3 doesnt|dont|does_not|wont|didnt|not ~2 what_i_want|listen|obey|do_what|do_as
		half|part|side ~4 see|vision|sight|view|screen ~4 missing|gone|black|blank|away
		curtain|shade|shadow|veil|blind ~3 came|come|coming|fell|dropped|went|comes|goes ~2 down|over|across ~4 eye|eyes|sight|vision
		curtain|shade|veil|shadow ~3 over|across ~2 eye|vision|sight
		$cant|couldnt|not ~1 see ~3 out ~2 left|right|one|eye|my
		one ~1 eye ~5 gone|blind|black|dark|lost|blank|milky|grey
		sight|vision ~2 gone|lost|went|black ~3 one|left|right
		everything ~2 $went ~1 narrow|small|far_away|distant|slow ~4 flutter|faint|ok|dizzy|then|heart
		flutter ~6 everything|vision|narrow|dark|black|grey
		lost|get_lost|got_lost ~3 my ~1 own ~1 street|road|village|neighbourhood
		flashes|flashing ~6 dots|spots|floaters|curtain|crash
		shower ~2 dots|floaters|specks
		worst|sudden|thunderclap|explosive|blinding|never ~3 head_pain|headache|head_ache|pain_in_my_head
		worst ~2 head
		zero|nothing|0 ~1 to ~1 hundred|100|ten|10 ~4 second|seconds|head|pain
		hit|hammer|bat|axe|gun ~5 back ~2 head ~~10 headache|pain|sprint|sudden
		like ~3 hit|hammer|bat ~4 head
		jerk|jerked|jerking|jerks|shook|shaking|twitch* ~3 ground|minutes|minute|itself|own|floor
		body|arm|leg ~2 belongs|belong ~3 somebody|someone|else
		side ~6 belongs|belong ~2 somebody|someone
		stared|staring|blank ~4 smacked|answer|table|minutes|minute ~4 wife|time|again
		not|doesnt|wont|isnt ~1 react|reacting|respond|responding
		didnt|not|wouldnt|couldnt|dont ~1 answer|react|respond|reply ~3 minute|minutes|seconds|while|for`},
	// Fainting in other words.
	{Emergency, Stop, false, `
		$woke ~3 on|in|under|with ~3 carpet|floor|ground|grass|ditch|hedge|verge|tiles|bathroom|shower|road|tarmac|pavement|ambulance|van|cut|blood
		$woke ~3 people|friends|mates|them ~3 feeding|around|over|standing|staring|shouting
		came to ~2 by|on|in|at|with|under
		$went ~1 dark|black ~6 lie|lay|sit|sat|ground|field|wall|kerb|floor|edges|fold|eyes|ears|rang|sky|down
		$dark ~3 edges|corners|vision|eyes
		greying|graying|blacking|whiting|browning|greyed|grayed out
		looking|staring ~2 at ~1 sky|ceiling|clouds ~4 next|how|weird|suddenly|legs
		next thing ~6 sky|ceiling|floor|ground|grass|people|faces|ambulance
		dropped|drop|fell|slid|slipped|went ~2 off|down|over|in ~3 chair|shower|stool|kitchen|work|start_line|queue|bathroom ~~10 remember|answer|how|out|minute|secs|seconds
		fell|fall|falling|lay|tipped|keeled|toppled|dropped|went|gave|lying ~10 without|no ~1 reason|stumbling|tripping|warning|cause|trip|idea
		fell|fall|tipped|keeled|toppled|dropped ~6 just ~1 so|like_that ~~10 trip|stumbl*|reason|nothing|shift|kitchen|street|ride|interval*
		away|gone|absent ~4 on|from ~1 bike ~~8 grass|ditch|ground|woke|coming
		moment|second|seconds|minute away|gone|absent
		suddenly ~1 away|gone ~~8 woke|ditch|grass|ground
		woke|coming|came ~3 honking|shouting|ditch
		tipped|keeled|toppled ~2 over ~6 no_idea|standing|woke
		dropped|fell|collapsed ~4 do_not|dont|didnt|no_idea|not ~2 remember|know ~1 how|why
		nearly|almost|about_to|going_to|gonna ~2 go|went|pass|passed|black|faint|keel|drop ~2 down|out|over|twice ~4 sprint*|interval|intervals|effort|ride|climb|stairs
		faint|faints|fainty|dizzy|woozy|gone ~3 when|whenever|each|every ~3 sprint|effort|climb|interval|hard
		faint|fainty|black_out|blackout <14> brother|dad|father|cousin|uncle|sister ~6 died|dead|dropped|heart
		brother|dad|father|mum|mother|cousin|uncle|sister ~4 died|dead|dropped ~~16 faint*|dizzy|black|down|sprint|went|chest
		out|gone|away ~2 few|couple|#number|bit ~1 secs|seconds|minute|sec|moments ~4 start|line|legs|mates|everyone|fine
		out cold ~6 start|line|road|mates|says|said|minutes|seconds|climb|yesterday`},
	// The heart in other words.
	{Emergency, Stop, false, `
		squeez*|fist|vice|band|weight|pressure|burning|heaviness|ache|tightness <6> breastbone|sternum|chest|throat|jaw|shoulder_blades|both_arms|arms ~~14 climb|effort|push|stop|hard|interval|second|third|back_off|ease|uphill|threshold|again|same|last_time
		that|the|same|this|a|another|more squeezing|squeeze|tightness ~3 again|back|came|feeling|like|returned|into|third|longer
		squeez* ~4 throat|jaw|arm|arms
		ache|pain|heaviness|heavy|pressure ~3 in ~1 throat|jaw ~~10 push|threshold|climb|stops|back_off|hard|effort
		chest ~1 thing
		thing ~2 in ~1 my chest
		attack|heart_attack ~1 feeling ~3 when|push
		weird|strange|funny|odd squeeze|squeezing
		behind|under ~2 breastbone|sternum
		except|besides|apart_from ~1 chest|heart|squeeze
		same|that squeeze|squeezing|pressure|tightness|pain ~8 both|arm|arms|jaw|chest|again
		like ~3 elephant ~3 on ~1 me
		elephant ~2 sitting|sat|stood|on
		pulling|drawing|ache|pain ~3 in ~2 arm|jaw ~6 climb|climbing|stop|effort|hard|hill|push|uphill
		effort|climb|climbing|hill|push* ~4 pulling|drawing ~3 arm|jaw|chest
		world ~1 turned|turning|turns|tilted|spun ~6 sweat*|cold|wall|sat|sit
		sweat|sweated|sweating ~1 cold <10> sit|sat|turned|pale|grey|wall
		box|pacemaker|device ~6 stroke|shock|current|zap|jolt|beep*
		icd|defib|defibrillator ~4 shock|fired|went_off|kicked|zapped
		shock ~3 icd|defib|defibrillator
		cold|heavy ~1 sweat|sweats|sweating ~~10 arm|chest|jaw|coffee|sat|sick|heavy|pale|grey
		$pulse|$heart ~2 stuck|jumped|shot|went|goes|spiked|stays|stayed ~4 #hundreds ~6 flat|nothing|rest|drop|sofa|min|faint
		ankles ~2 thick|swollen|puffy|fat <<14>> breath*|flat|air|stairs
		lie|lying|flat ~4 breath|air|breathe ~6 sit|sitting|pillow|pillows
		no|not_enough ~1 air ~3 lie|flat|lying|when
		stop|stopping|pause|rest ~2 for|to ~2 breath|breathe|get_air ~8 stairs|steps|month|landing
		$stairs <8> no|not|hardly ~1 air|breath
		no ~1 breath|air ~4 $stairs
		air|breath ~2 not ~1 in|enough
		lying|lie ~2 get ~1 no ~1 breath|air
		stairs ~4 without ~4 breath|stopping|pause|puffed
		walk|walking|stairs|tea|shoes|teeth|talking|dressed ~3 $breathless|puffed|winded|out_of_puff
		$breathless|puffed|out_of_puff|winded ~3 making|just|only|brushing|walking|tying ~3 tea|stairs|shoes|teeth|flat|upstairs|loo|toilet|coffee
		blood ~1 pressure ~6 #number ~~14 head|dizzy|blurry|chest|vision|bangs|headache`},
	{Doctor, Stop, false, `
		resting|rest ~1 $pulse ~6 #hundreds|higher|above|normally|usually|double
		$pulse ~3 #number ~6 normally|usually|usual ~1 #number
		$pulse ~6 doing|at nothing
		$heart|$pulse ~3 stops|stopped|pauses|stumbles|trips|tripping|stolpert
		$pulse|hr|heart_rate ~3 without ~1 effort|reason
		rang|ringing ~2 ears ~~8 dark|black|faint|lie|vision|tube
		bag ~1 of ~1 worms
		$heart ~3 going|like|is|goes ~2 techno|drum|jackhammer|machine_gun|hammer|hummingbird|drum_and_bass|rave <<8>> bed|sofa|sitting|lying|night|rest|reason|sleep|desk`},
	// Medicines, drugs, gases, heat and cold.
	{Emergency, Stop, false, `
		took|taken|swallowed|popped|had|ate ~4 twelve|thirteen|fifteen|twenty|thirty|forty|fifty|sixty|12|14|15|16|18|20|24|30|32|40|50|60|100|whole|entire|all ~4 ibuprofen|paracetamol|tablets|pills|painkillers|aspirin|sleeping|caffeine|tabs|pack|packet|box|blister
		took|taken|swallowed|popped ~5 all|every ~3 tablets|pills|sleepers|meds|medication
		twelve|thirteen|fifteen|twenty|thirty|12|14|15|16|18|20|24|30 ~4 painkillers|pain_pills|tablets|pills ~10 slow|sleepy|dizzy|sick|today|morning|night
		took|taken|swallowed|had ~2 too_much|too_many ~4 drops|sleeping|tablets|pills|painkillers|insulin|meds|medicine
		took|taken|swallowed|popped ~2 double|twice|triple ~6 tablets|pills|dose|heart|insulin|meds
		caffeine|adhd|workout|preworkout|energy_drinks|ritalin|speed|coke|cocaine|ephedr* <<14>> shaking|shakes|heart|pounding|pulse|racing|chest|hr
		pills|tabs|tablets ~1 and|plus ~4 shaking|heart|pounding
		heater|stove|generator|fumes|exhaust|boiler|gas <<14>> headache|head|sleepy|dizzy|sick|cherry|drowsy
		stopped|stops|stop ~1 shivering
		shivering ~1 stopped
		shiver*|freezing|frozen|soaked|cold <12> mumbl*|slur*|sleepy|confus*|silly|drowsy|fumbl* ~4 mates|undress|rain|ride|bit|and|had
		mumbling|slurring ~6 cold|frozen|soaked|undress*
		hut|altitude|metres|m|alps|pass|summit <<14>> stagger*|bubbl*|frothy|split|threw_up|breathless_in_bed|confus*
		fell|fallen|went ~2 in ~1 canal|river|lake ~6 breathed|swallowed|coughing
		breathed|inhaled|swallowed ~1 water ~6 cough*|tight|breath*
		electric|electrocuted ~1 shock ~8 chest|heart|flutter*
		drank|drunk|drinking ~5 litres|liters|bottles|gallons ~~10 puffy|confus*|headache|head|swollen|sick|nausea
		puffy|swollen ~1 hands|face|fingers ~~8 head|headache|confus*|sick|water|drank
		put ~1 on ~3 kilo|kilos|kg ~8 ride|day|rings|headache|vomit*`},
	{Doctor, Stop, false, `
		toes|fingers|foot|feet ~3 white|black|wax|waxy ~6 feeling|numb|still|hard
		foot|leg|hand ~2 went|gone|is|turned ~3 white|pale|blue ~4 cold|stays|numb|hurts
		shin|calf|forearm|thigh ~4 burst|drum|bursting ~6 numb|toes|crash|pain|tight|move
		tight ~1 as ~2 drum ~~8 toes|numb|pain
		ibuprofen|diclofenac|naproxen|painkillers ~8 all_race|every_two_hours|every|stage <<12>> burning|burns|pee|brown|black`},
	// Pregnancy and what follows it.
	{Emergency, Stop, false, `
		pregnan*|expecting|weeks_gone|weeks_along|trimester <<14>> blood|bleed*|spotting|pain|cramps|cramping|leak*|waters|headache|dizzy|faint*|contraction*|flashing|swollen
		#number|weeks ~2 gone|along|pregnant ~8 blood|pain|leak*|spotting|bleed*
		baby ~3 not|hasnt|isnt|havent|stopped|hardly|less ~2 moved|moving|move|kicked|kicking
		waters broke|gone|leaking
		leaking ~1 water|fluid
		period|late|missed_period ~5 late|missed ~~12 pain|stabbing|dizzy|faint*|side|sharp
		birth|baby ~~12 soaked|pad|clot|calf|breathless|bleeding|fever`},
	// Testicles, eyes.
	{Emergency, Stop, false, `
		$balls <8> agony|killing|swollen|swelled|double|huge|pulled_up|sudden|suddenly|purple|twisted|big|pain|hurts|unbearable|size|black|screaming|sore
		pain|agony|killing <4> $balls
		erection ~6 hours|away|go|hurts|down
		eye|eyes ~4 milky|thorn|chemical|degreaser|splash|acid|bleach|stabbed|pierced|halos
		halos|haloes ~3 lights`},
	// What a doctor has said or done.
	{Doctor, Stop, false, `
		$bone ~2 shaped|points|pointing|bent|deformed|crooked
		heard|felt ~2 bone ~1 go|crack|snap|pop|break
		ripped|tore|torn ~1 calf|hamstring|groin|quad|achilles
		$fitted ~3 stent|pacemaker|icd|plate|screws|pins|valve|monitor|holter|loop_recorder
		stent|pacemaker|icd|valve ~3 $fitted|friday|monday|tuesday|wednesday|thursday|yesterday|week|put_in
		appendix|gallbladder|hernia|catheter|tonsils|wisdom ~3 out|removed|op|surgery|done ~3 on|last|week|yesterday|friday|monday|tuesday|wednesday|thursday
		hospital|ward|clinic ~3 let|discharged|released ~2 me|out|yesterday|today
		in hospital ~3 observation|after|with|since ~6 crash|back|chest|heart|fall|i_am|intervals
		signed ~1 myself out
		discharged ~2 from ~1 hospital|ward|clinic
		heart ~1 catheter|scan|event
		beta ~1 blocker|blockers
		no sport|sports|exercise|training|cycling|riding ~3 til|till|until|before|for
		said|told|says ~2 no ~1 sport|sports|exercise|training|bike|cycling|riding|efforts
		$doc|nurse|medic|paramedic|paramedics|hospital|physio ~4 go|come|stay|not|pulled|took|sent|keep ~2 straight|a_and_e|hospital|with_us|train|ride|home|race|off|out
		nurse|111|doctor|gp|doc ~3 told ~2 me ~3 a|hospital|er|emergency|straight
		zero|no ~1 sport ~3 but|can|until
		suspects|suspicion|suspected ~6 heart|muscle|fracture|clot|inflam*|concussion
		heart ~2 muscle ~3 inflam*|thing|infection
		spleen ~4 big|enlarged|swollen|ruptured|sore
		stress ~1 fracture ~5 no_period|third|second|another|doctor|physio|stay_off|race|ride|again
		on thinners|bloodthinners|blood_thinners|warfarin|xarelto|eliquis ~~10 fell|crash*|hit|bleed*|nosebleed|head|clot`},
	{Rest, Stop, false, `
		38|39|40|38.0|38.5 ~3 but|and|still|base|easy|race|openers|intervals|fine|since|now
		day|days ~2 of ~1 38|39|40|#degrees
		fever|fevers|temp|temperature <6> #degrees|38|39|40
		hot ~1 like ~2 oven
		under|beneath ~1 three|two|four|#number blankets|duvets
		$cant ~1 tie ~2 shoes|laces`},
	// Thoughts of not being here, harm to oneself.
	{Talk, Stop, false, `
		$notbraking ~~10 over|everyone|end|think|thought|sometimes|wonder|through|on|barrier|lorry|bus|car|train|truck
		think*|thought|thoughts|tempted|wonder*|imagine ~4 $notbraking
		point ~3 any ~1 of ~1 it|this|all
		not|dont|cant|no ~2 see ~2 point|why ~3 any|it_all|being|going|go_on|living|i_should|all_this
		why ~1 i ~1 should|bother ~1 go_on|carry_on|live|be_here
		being|be here at_all|anymore|any_more|any_longer
		over ~1 for ~1 everyone|everybody|all|good
		if ~1 i ~3 wake|woke|waken|waking ~1 up ~3 nobody|no_one|noone|tomorrow|fine|ok
		hope|wish|pray ~2 i ~3 dont|didnt|never|not|just ~3 wake|woke
		hope|wish|rather ~4 dont|not|never ~1 wake
		nobody|noone|no_one|none ~4 notice|miss|care|mind ~6 gone|stopped|existing|wake|woke|disappeared|died|left|if_i|here
		nobody|noone|no_one|none ~4 notice|miss|care|mind ~2 if ~4 rode|ride|went|drove|fell|swerved|jumped|rolled ~3 cliff|edge|bridge|viaduct|traffic|lorry|truck|train|barrier
		exist|existing|exists ~2 anymore|any_more|nobody|no_one|stopped|stop
		stopped existing
		better|rather|prefer ~1 not ~2 be|exist|live ~2 here|there|around|alive|any
		better ~1 for ~1 everybody|everyone|all|them ~3 if ~2 away|gone|dead|not_here
		all ~1 same ~1 to ~1 me ~2 if|whether ~2 come|wake|live
		think ~2 of ~1 rails|tracks|bridge|rope|cliff
		myself|i ~4 cut ~1 again|in ~2 arm|arms|leg|thigh|wrist
		cut ~2 in ~2 arm|arms|thigh|wrist ~2 again
		let ~1 it run ~6 over
		razor|blade ~3 helps|help|calms|relief
		only|just ~1 broth|water|juice|tea|coffee ~8 must_be|weight|kg|light|climb
		everyone|everybody|you_all|all|they|club|team|family|world|kids|wife ~3 better|happier ~2 off ~2 without
		everyone|everybody|you_all|they|club|team|family|world|kids|wife|you|youll ~3 better|happier|fine ~3 without|when ~1 me|im_gone|i_am_gone
		when ~1 im gone
		give ~3 bike|kit|wheels ~4 when ~1 im|i_am gone
		wrote|write|writing|left ~2 letter|letters|note|notes ~3 everyone|goodbye|everybody|family|kids|parents
		goodbye|farewell ~1 letter|letters|note|everyone
		viaduct|bridge|platform|cliff|tracks|multi_storey ~4 sitting|standing|driving|going|keep|stood|every
		driving|drive|go|going|walk|keep ~3 to ~2 viaduct|bridge|cliff|tracks ~3 sit|sitting|stand|and
		pills|tablets|rope ~3 counted|saved|ready|lined|stashed|hoarded
		counted ~1 out ~3 tablets|pills
		not ~1 taking|turning|making ~2 bend|corner ~4 straight|tonight|cliff|tree
		just|keep ~1 going ~1 straight ~4 bend|corner|edge|trees|barrier
		burn|burning|burnt|burned ~2 arms|arm|legs|skin|myself ~4 lighter|iron|cigarette|miss|bad|on_purpose
		punch*|hit*|beat*|scratch*|bruise* ~1 my ~1 own ~1 legs|thighs|arms|head|self
		punching|hitting|beating|burning|scratching ~1 my ~1 legs|thighs|arms|head ~6 bad|calms|until|after|black|relief
		punish|punishing|hurt|hurting|cut|cutting|harm|harming|punched|burn|burning ~1 myself
		lorries|trucks|trains|traffic|cars ~4 easy|easier|tempting|think|over_quick
		want|wants|wanting|wanted ~1 to ~1 end ~1 it|things|everything ~4 he|she|they|tomorrow|all|now|tonight|life
		alive ~2 anymore|any_more|any_longer`},
	// Eating that has gone wrong, too little for the work.
	{Talk, Stop, false, `
		throw|throws|throwing|bring|brings|vomit*|sick|puke|puking|sick_up ~2 up = after ~3 meal|meals|dinner|eating|food|lunch|each|every
		makes|make|making|made ~1 herself|himself|themselves|myself ~1 sick|vomit|throw_up|puke
		finger|fingers ~3 down ~3 throat|after|dinner|dinners|meals
		stay|stays|staying ~2 light|under|skinny|lean|thin ~~12 throw*|vomit*|sick|chew*|eat*|laxative*|works|fainted
		nothing|only|just|without|no_food|had ~4 but|on|by ~3 coffee|water|tea|coke_zero|cucumber|gum|lettuce|broth|juice|diet_coke <<16>> weight|light|lighter|race|climb|days|faint*|floaty|dizzy|week|skinny
		water|coffee ~1 and ~1 coffee|water ~1 only ~~12 days|light|weight|race
		not|havent|nothing|stopped|hardly|barely|dont ~2 eaten|eat|eating|ate ~3 since|for|until|till|much|properly|days ~~10 weight|light|race|floaty|faint*|scale|hill_climb|lean
		eat|eating|ate ~2 #hundreds ~4 day|kcal|calories|cal|down|kilos
		#hundreds ~1 kcal|calories|cals|cal ~4 day|scared|only|all
		make|making|get|getting|hit ~2 weight|race_weight ~~12 nothing|havent|not|water|coffee|faint*|floaty|lie|hide|lying|laxative*|fast*
		if ~2 scale|scales ~3 up|more|goes
		scale|scales ~3 up ~4 dont|not|no|skip
		after ~1 each|every|any ~1 meal|meals|food ~4 else|panic|run|ride|must|sick|vomit*
		run|ride|train ~4 after ~2 meal|meals|eating|dinner ~4 else|otherwise|or ~2 panic|guilt*
		panic ~6 meal|meals|eat*|bread|food|scale
		no ~1 bleeding ~3 since|for ~3 months|year
		ate|eaten|eat ~2 nothing ~3 days|day|since ~8 climb|light|faster|weight|kg|race|empty
		weight ~4 falling|dropping|down ~6 ill|everyone|all|still|strong
		hair ~2 falls|falling|coming|fell ~1 out ~~12 weight|kilos|period|eat*
		puke|puking|vomit*|sick|throw_up <8> on_purpose|stay_at|kg|kilos
		period|periods ~3 gone|stopped|missing|away|since|no ~6 months|year|november|since|january|autumn|ages|half
		no|lost|missed ~1 period|periods|cycle ~5 months|year|since|november|stress|fracture|half|ages|coach|power|train*
		scared|afraid|frightened|terrified|fear ~2 bread|pasta|carbs|rice|eating|food|sugar
		bread|pasta|carbs|rice|food ~3 cry|crying|panic|scared|scares
		hide|hiding|hid ~2 food|meals|eating
		lie|lying|lied ~2 about ~2 eating|food|meals|eat
		only|just ~3 let|allow ~2 myself ~4 dinner|eat|food|meal|carbs
		dinner|eat|food|meal ~4 if ~3 #hundreds ~2 calories|kcal|watts|km
		laxative|laxatives|diuretic|diuretics|water_tablets ~4 night|day|light|race|weight|before`},
}
