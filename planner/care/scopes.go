package care

// speech is what a language has to tell how words are meant.
type speech struct {
	lang     Lang
	meanings []group
	// figures are figures of speech and ordinary words of training.
	figures string
	// not are negations, hollow ones that negate something else.
	not, hollow string
	// others are people and animals, self is the rider.
	others, self string
	// past is over for long, now is not; over says that it is gone.
	past, now, over string
	// unsure makes a question of it; effort is hard riding; owns says "me too".
	unsure, effort, owns string
}

// compile puts all tables together.
func compile() *tables {
	k := &tables{index: map[string]int{}, classes: map[string]element{}}
	for _, c := range englishClasses {
		k.class(c[0], c[1])
	}
	for _, g := range [][]group{emergencies, heads, doctors, rests, easies, talks} {
		k.add(&k.meanings, English, g...)
	}
	k.add(&k.bare, English, bare...)
	for _, s := range []speech{english, portuguese, spanish, french, german, italian} {
		k.add(&k.meanings, s.lang, s.meanings...)
		for to, text := range map[*list]string{&k.figures: s.figures, &k.not: s.not, &k.hollow: s.hollow, &k.others: s.others, &k.self: s.self, &k.past: s.past,
			&k.now: s.now, &k.over: s.over, &k.unsure: s.unsure, &k.effort: s.effort, &k.owns: s.owns} {
			k.add(to, s.lang, group{text: text})
		}
	}
	return k
}

var english = speech{
	lang: English,
	figures: `
		head unit|units|wind|winds|tube|torch|lamp|light|set|phones|coach|quarters|count|office|down|wound
		headset|headwind|headwinds|headphones|headlight|headlamp|headbanger
		head ~1 of ~1 group|bunch|race|peloton|road|pack
		head on into ~1 wind
		wind in ~1 head
		the|hr|rate|my|new strap ~4 chest
		doctor who
		pain|symptom|injury free
		suicide|suicidal pace|speed|attack|sprint|break|tempo
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
		chest strap|straps|press|day|belt|monitor|pocket|band
		strap ~3 chest ~3 battery|dead|flat|broken
		swim|swimming|breast|front|back|crawl stroke|strokes
		stroke rate|drills|drill|volume|count|length
		stroke of ~1 luck|genius|midnight
		bike fit|fits
		fit ~1 booked|session|appointment
		fit of laughter|giggles
		had ~1 fit when|at ~2 saw|price|bill
		killed|murdered ~1 me|us
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
		sick ~1 ride|bike|climb|hill|descent|views|view|day|wheels|kit|route|trail|jump|segment|power|watts|leave|note|burn
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
		back ~1 wheel|brake|tyre|tire|to|home|at|on|up|from|of|roads|pocket|light|end|straight|out
		neck and neck
		knee|arm|leg|shoe|toe|neck warmer|warmers|pads|pad|covers
		shoulder season|bag|of
		hard shoulder
		foot|toe overlap|path|down|pump
		cold bottle|feet|hands|toes|fingers|drink|water|weather|start|coffee|beer|day|morning|wind|rain|air|legs|snap|out|front|shower|brew|pizza
		felt|feel|feeling|it|bit|so|too|proper|very ~1 cold ~1 on|at|out|outside|descent|for|today|this
		outside|road|water|air|room|colour temperature
		temperature ~3 outside|forecast|degrees|drops|drop|dropped
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
		head|heads|heading start|to|for|out|off|home|back|into|north|south|east|west|towards
		head ~1 didnt|did_not|never|not ~1 touch|hit|bang
		temp|temps|temperature ~1 normal|fine
		lights out ~2 at|by|10|11|early|#number
		lights ~2 out ~3 tunnel|tunnels|night|battery
		black out|outs ~1 dates|curtains|blinds
		hit|hitting|hits ~2 wall|gym|road|target|numbers|watts|pb|rollers|turbo|snooze
		run|long|easy|tempo|interval|do|my|park|recovery|trail the runs
		runs ~2 smooth|smoothly|well|fine
		bug ~2 app|bot|plan|software|firmware|report|fix|garmin|bite|bites
		virus scan
		sore losers|loser|loser's
		threshold|tempo|vo2|intervals ~2 hurt|hurts|felt|painful|hard
		blood ~1 test|tests|donor|donation|sweat|and|moon|donated|pressure
		gave|give|giving blood
		crash|crashed ~2 app|computer|unit|phone|file|upload|software|site|bot
		unit|app|computer|phone|bot|garmin|watch|site ~2 crash|crashed|froze|died
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
		want|wanna ~1 purge`,
	not: `
		not|no|never|none|without|nothing|neither|nor|nowt|isnt|wasnt|arent|werent|dont|doesnt|didnt|havent|hasnt|hadnt|aint|nobody|wont|couldnt|cannot|cant|no_one|nah|nope
		free of|from`,
	hollow: `
		not sure|certain|only|just|good|great|well|right|bad|too|that|really_good|even|so|going|gonna|ideal|brilliant|fun|normal|much|enough|happy|again|able|able_to|allowed
		not|never|dont|didnt|doesnt|wont|cant|couldnt|cannot|isnt|wasnt|havent|aint ~1 ride|riding|race|racing|train|training|sleep|slept|sleeping|finish|finished|start|started|going|go|work|working|drink|drinking|stop|shake|rid|believe|wait|even|get|do|move|stand|keep|sit|walk|lift|hold|put|help|pedal|push|carry|made|make|done|know|tell|remember|understand|see|want|need|matter|manage|intervals|plan|bike|climb|session|answer|care
		no idea|clue|reason|longer|matter|good|bother|worries|problem|problems|energy|ride|riding|bike|way|power|point|training|turbo|vo2|intervals|rush|sport|idea_why|appetite|sleep|warning|use|joke|will|big|bigger|power|legs|strength|session|cycling|race|racing|excuse
		why not
		or not
		if not
		nothing ~1 else|like|works|helps|for|serious|major|dramatic|much|to|before|since|happened|left|stays
		never ~1 had|felt|experienced|known ~1 like|this|before|so|such|anything
		never ~2 again|better|worse|stops|mind|been_so
		cant|couldnt|dont|didnt|wont ~1 even|stop|breathe|breath|get|catch|shake
		no no`,
	others: `
		my|our|the|a|some|one|his|her|their|an|this|that|other|another|poor|best|old|young|little mate|mates|brother|bro|sister|sis|wife|husband|hubby|partner|gf|bf|girlfriend|boyfriend|dad|father|mum|mom|mother|son|daughter|kid|kids|child|children|dog|cat|boss|neighbour|neighbor|colleague|coworker|friend|friends|cousin|uncle|aunt|nan|gran|granny|grandad|grandma|grandpa|teammate|team_mate|captain|flatmate|housemate|lad|lads|guy|bloke|fella|man|woman|girl|boy|baby|toddler|nephew|niece|rider|juniors|junior|bird|missus|missis|ones|one|pal|buddy|clubmate|student|teacher|fan|spectator|marshal|cyclist|runner|driver|horse|fellow|pro|pros|leader|bunch|team
		mate|brother|sister|wife|husband|hubby|partner|gf|bf|girlfriend|boyfriend|dad|dads|father|mum|mums|mom|mother|son|sons|daughter|daughters|kid|kids|children|dog|dogs|boss|bosss|neighbour|neighbours|neighbor|colleague|colleagues|coworker|friend|cousin|uncle|aunt|nan|nans|gran|grandad|grandma|teammate|teammates|flatmate|housemate|missus|toddler|lad|bloke|guy|fella|buddy|clubmate|inlaw
		captain|coach|secretary|chairman|leader ~1 is|has|was|had|s|out|off|broke|got
		half ~1 bunch|club|team|group|office|peloton|school|family|class
		one|two|some|three|couple|few ~1 of ~1 group|juniors|lads|girls|guys|them|us|riders|bunch|boys|club|team|others
		someone|somebody ~1 in|from|at|on|has|had|fell|crashed|fainted|was|broke|got
		everyone|everybody|people|they_all|each_of
		he|she|hes|shes|his|her|him|hers
		somebody|someone_else
		little one
		in laws|law
		yer man
		juniors`,
	self: `
		i|im|ive|id|me|my|myself|mine|meself`,
	past: `
		#year
		years|yrs|year|decades|decade|winters|seasons|ages|summers ~1 ago|back|gone|earlier
		yr|y ago
		last|previous winter|season|summer|autumn|year|spring
		last seasons|years|winters
		winter|summer|year|season before ~1 last
		as ~2 kid|child|teenager|teen|boy|girl|youngster|junior|student|baby
		when ~2 was|were ~2 kid|child|teenager|teen|boy|girl|young|younger|little|small|#number|student|junior
		in ~1 teens|twenties|thirties|forties|childhood|youth|nineties|eighties|20s|30s|90s|80s
		used to
		at|in ~2 school|uni|university|college|primary
		school|childhood days|sports|illness
		is|are|was ~1 from #number|two|three|four|five|six|seven|eight|nine|ten years
		#number|two|three|four|five|six|seven|eight|ten|fifteen|twenty years|yrs ~1 well|clean|clear|free|now
		as ~1 teenager
		back in ~1 jan|feb|january|february|college|the
		aged|age #number
		disorder|anorexia|anorexic ~1 at|in
		long ~1 ago|gone|past
		once ~2 at|in ~1 school
		in ~1 nineties|eighties|army`,
	now: `
		today|todays|now|still|again|yesterday|yday|ystrday|tonight|currently|lately|keep|keeps|atm|rn|recently|suddenly
		this morning|week|evening|afternoon|morn|am|mornign
		last night|nite|nigth
		right now
		since ~1 monday|tuesday|wednesday|thursday|friday|saturday|sunday|mon|tues|tue|wed|thurs|thu|fri|sat|sun|yesterday|yday|last|this|breakfast|lunch
		on monday|tuesday|wednesday|thursday|friday|saturday|sunday
		came|come|comes back`,
	over: `
		all healed|gone|good|sorted|clear|better_now
		so|years|ages|good|fine|ok|well|months|decades|time|grand|right|clear now
		now ~1 all|only|just|i|fine|ok|good|perfect ~1 like|ok|drink|good|fine|perfect|scar
		fully|long|completely recovered|healed|better|over
		well past|over|recovered
		all clear
		signed off ~1 years|decades|back|ages
		cured|healed
		never since|again
		nothing|no|plus|none|never ~2 since
		ago ~4 grand|fine|ok`,
	unsure: `
		what if
		in case
		if ~1 i|you|someone ~1 get|got|have|had|faint|crash|fall|feel|felt|hit|start
		how ~2 i|you|we|to ~1 avoid|prevent|spot|recognise|stop|recognize
		what ~2 causes|cause|are|is ~3 symptoms|signs
		should|would|could you ~3 get|have
		is it|that true
		can|could|might ~1 you|one|people|this|that|it|riders ~1 get|cause|give|trigger
		do|does|can ~2 intervals|riding|cycling|training|coffee|caffeine ~2 cause|give|trigger`,
	effort: `
		top|summit|ramp|sprint|sprints|effort|efforts|interval|intervals|rep|reps|max|vo2|threshold|hill|climb|recovered|tt|attack|attacked|line`,
	owns: `
		me too
		now me
		same here
		so do i
		me ~1 now
		now i|ive|im ~2 have|got|same|too|it|feel
		i ~2 too
		caught it
		got it ~1 too
		and me`,
}
