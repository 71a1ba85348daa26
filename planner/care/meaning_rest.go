package care

// rests: nobody trains with these (IOC consensus 2022).
var rests = []group{
	{Rest, Stop, false, `
		fever|fevers|feaver|feverish|fevered|febrile|fiver_of|fevar|fevr
		a|bit|slight|high|got|have|running|temp|my temperature|temprature|temperture|tempature ~2 of|last|this|today|since|and|all|at|is|nothing|again|race|spiking|up
		got|have|having|running|slight|high|had ~2 temperature|temprature|temperture|tempature|temp
		temp ~3 #degrees
		temp of|is|at|was #degrees
		$temp ~3 says|said|reads|reading|shows|showing|is|was ~2 #degrees
		$temp ~4 38|39|40|38.0|39.0
		#degrees ~6 fever|temp|temperature|feel*|warm|hot|bed|thermometer|morning|night|yesterday|rough|shiver*|since
		have|had|got|with|and|at #decimal
		temperature|temp ~1 last night
		38|39|40 ~1 fever|temp|temperature
		chills|shivers|shivery|shivering
		hot and cold
		cold|night|hot sweats|sweat
		sweating|sweats ~2 bed|night
		sheets soaked
		flu|influenza|flue|grippe|gripe_in
		covid|covid19|corona|coronavirus|covd
		tested ~1 positive|postive|positiv|pos
		positive ~2 test|lateral
		lat|lateral|lft|covid|flow ~6 two|2|double ~2 lines
		two|2|double lines ~3 lateral|lft|covid|test
		norovirus|noro|rotavirus
		measles|mumps|chickenpox|shingles|tonsillitis|tonsilitis|quinsy|sinusitis|sinus_infection|strep
		swollen glands|tonsils`},
	{Rest, Stop, false, `
		cough|coughing|coughs|coughed|coughin|caugh|chesty|coff|barky
		bad|dodgy|rattly|mucky|gunky|wheezy|bubbly = chest
		bad|heavy|rotten|nasty dose
		phlegm|phlegmy|mucus|flem|phlem
		green stuff|slime|gunk|goo|snot
		wheez*
		chest|lungs ~3 cold|congest*|rattl*|crackl*|gunk
		cold ~4 chest|lungs
		slime ~3 lungs
		deep in ~1 chest|lungs`},
	{Rest, Stop, false, `
		shits|squits|skits|trots|bogs
		shitting|pooping|pooing|crapping ~3 water|liquid|everywhere|all
		burning up
		$temp ~3 up|high|raised|spiking|climbing
		coming|come|came ~1 down with
		not|dont|didnt|isnt feeling|feel ~2 well|great|right|good|myself ~3 today|this|since|at|and|sick|ill
		not feeling ~2 well
		under par ~3 sick|cough
		hamstring|calf|quad|groin|back|knee|achilles|something ~2 pinged|popped|twanged|snapped|went|pinging|tweaked|pop
		back ~2 in bits|ribbons|agony|tatters|pieces
		my back ~2 bits|agony|killing|spasm|out|gone|sore|hurts|wrecked
		rotten|stinking|heavy|awful|nasty ~2 flu|cough|bug|virus
		vomit*|vommit*|vomitt*|vomet*
		puke|puked|puking|pukey
		threw|throw|throwing|throws|thrown ~2 up
		chucking|chucked up
		throwing everything
		spewing|spewed|spew|chundered|barfed
		sick ~1 as ~1 dog
		been|being|was|violently|got|bit|feel|feeling|felt|im|off|too|woke|still sick|ill|poorly|unwell|rough|crook|queasy
		i am sick|ill|poorly|unwell
		am ~1 sick|ill
		sickness
		under ~1 weather
		$tummy ~3 bug|cramp*|ache|aches|upset|pain|pains|flu|virus|revolution|bad|dodgy|rotten|hurts|hurting|issues|problems|poison*|infection|knots|in_bits
		$tummy ~3 cant
		bug|upset|dodgy|sore|bad|cramps|pain|pains|rotten ~3 $tummy
		stomachache|bellyache|stomach_ache
		gastro*|gastric*|gastritis
		diarrh*|diarr*|diarh*|diahr*|diaorr*|dioreah
		got|have|having|with|had|tummy|cramps|and|bad the runs
		runs since|bad|quite|all|last|after|again|from
		trots since|all|again
		on ~1 loo|toilet|bog|throne ~2 all|night|since|twice
		all|night|morning|times ~3 loo|toilet|bog
		toilet ~3 all|night|times
		both ends
		food poison*|poisoning
		dodgy prawns|prawn|kebab|curry|oysters|tummy|chicken|sushi|mussels|seafood
		must ~2 oysters
		cant ~1 keep ~3 down
		nausea|nauseous|nauseated|nautious
		caught ~4 bug
		got|caught|picked ~2 bug|virus|lurgy
		lurgy`},
	{Rest, Stop, false, `
		ache|aches|aching|achy|achey|achs|sore|hurts|pains ~1 all ~1 over|everywhere
		everything|everywhere aches|hurts|ached|aching|sore
		all ~1 body hurts|aches|sore|ache
		whole|entire body|bodys
		body aches|ache|hurts|aching|pains
		toe ~2 aching|ache|aches|achy|sore
		room|world|ceiling|walls ~1 spinning|spins|spin
		$cant ~1 turn|move|bend|twist|rotate ~2 neck|head|back|knee|hip
		every ~3 aches|hurts|ached|hurting|sore
		achy|achey ~3 shiver*|fever*|flu|hot|cold|bed
		all ~2 joints|muscles ~1 hurt|hurts|ache|aches|aching|sore
		joints ~1 hurt|hurting|ache|aches|aching|killing|sore
		shivery|fluey|rundown|run_down
		flu type|like
		skin|hair hurts
		no energy ~3 sick|ill|fever
		in bed ~2 since|from|all|with
		dizzy|dizziness|lightheaded|vertigo|giddy
		light headed
		migraine*|headache|headaches
		splitting headache
		dark ~1 urine|pee|wee
		pee ~3 brown|dark|cola|red
		ear infection
		infected|infection|abscess|sepsis`},
	{Rest, Stop, false, `
		$part ~4 $hurts|balloon|ballooned|blown_up|blew_up|puffed_up|football
		hurt|hurts|hurting|pain|pains|pian|sore|ache|aches|stabbing|sharp|spasm|twinge|tweaked|pulled|strained|tore|torn|sprained|sprain|twisted|inflamed|bruised|injured|swollen|jarred|stiff|killing|done_my|put_out|knackered|knacked|burning|screaming ~4 $part
		hurts ~2 pedal|ride|pedalling|pedal_stroke|climb|stand|cycle|turn|push|walk
		hurts|hurting|pain|painful|sore|stab|stabs|killing ~4 every|each ~1 pedal|downstroke|stroke|pedalstroke|climb|hill
		every|each pedal|pedalstroke ~1 stroke ~3 hurts|pain|painful
		$part ~3 bruised|balloon|blown_up|puffed|swelled|ballooned|stiff|went|goes|gone ~1 swollen|on|up|again|pop|twang|ping|spasm
		$part ~5 unclip|limp|limping|limped
		back ~2 hurts|hurting|sore|aching|aches
		its|is ~1 my = back|knee|hip|achilles|calf|hamstring|shoulder|neck|ankle ~1 again|playing_up|acting_up|back
		back|knee|hip|neck ~3 $cant ~1 bend|straighten|turn|move|walk|stand
		back ~2 spasm*|locked|gone|went|seized|killing|pain|pains|agony|goes|out
		spasm|spasms ~3 back
		tendonitis|tendinitis|tendinopathy|bursitis|sciatica|fasciitis|shin_splints|slipped_disc|herniated
		sprain*|pulled_muscle|torn_muscle
		pulled|torn|tore|strained ~3 muscle|calf|hamstring|hammy|quad|groin
		injured|injury
		road rash ~4 swell*|swollen|infected|weeping|hurts|pus
		saddle sore|sores ~6 cant|infected|bleeding|hurts
		ribs|rib ~3 bruised|sore|bruising
		limp|limped|limping ~2 home|in|back`},
	{Rest, Ask, false, `
		sick|unwell|poorly
		$tummy ~3 off|funny|unsettled|iffy|dicky|churning|queasy
		temp ~2 up|high
		feel|feeling|felt awful|terrible|rotten|dreadful|grim|lousy`},
}

// easies: only the head has a cold.
var easies = []group{
	{Easy, Stop, false, `
		head|man|bit|got|have|having|caught|getting|a|with|stinking|rotten|nasty|slight|small|just|another|this cold ~1 and|but|since|today|again|now|so|from|nothing|can|coming|still|should|do|is|going|ok|not
		head|stinking|slight|nasty|caught|catching|common|rotten cold
		got|have|having|ive|caught|bit ~2 of ~1 a cold
		got|have|caught|having ~1 a cold
		runny|runy|blocked|stuffy|stuffed|bunged|congested|snotty|streaming ~2 nose|nostrils|up|sinuses
		nose ~3 runny|running|blocked|stuffy|streaming|runs|full|bunged|congested
		constipated ~2 nose
		sniffle*|snuffle*|sniffl*
		sneez*
		bunged up
		throat ~3 sore|scratchy|hurts|tickle|tickly|raw|burning|bit|itchy
		sore|scratchy|tickly|raw|itchy|bad|rough ~1 throat|throut|throaght
		snot|snotty
		full of cold`},
}

// bare are words that count in a list of symptoms alone.
var bare = []group{
	{Emergency, Stop, false, `
		faint|faintness|lightheaded_and
		arm pain|ache
		jaw pain|ache
		confus*|disorient*
		stroke
		chest
		breath|breathing|out_of_breath
		heat stroke`},
	{Doctor, Stop, false, `
		heart
		racing|pounding|irregular heart|pulse`},
	{Rest, Stop, false, `
		breath|wheez*|chill*|temperature|gut|stomach|belly|tummy|ache|aches|aching|achy|fatigue*|exhaust*|dizz*|tired|tiredness|sick|ill|unwell|severe|persistent|infection|infected|swollen|swelling|pain
		sore ~2 all|over|everywhere|body|muscle*|legs|limbs|joints|arms
		dark urine
		knee|back|hip|achilles|injur*|cramps|weak|weakness|virus|rash|bug`},
	{Easy, Stop, false, `cold|nose|throat|sniffl*|catarrh`},
}
