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
	// well says that the rider feels well again, which is no end of a grave sign.
	well string
	// gone says that a complaint has gone for good.
	gone string
}

// compile puts all tables together.
func compile() *tables {
	k := &tables{index: map[string]int{}, classes: map[string]element{}}
	k.figures.close, k.others.close, k.others.closer = true, true, true
	for _, c := range englishClasses {
		k.class(c[0], c[1])
	}
	k.exact = true
	for _, c := range ordinaryClasses {
		k.class(c[0], c[1])
	}
	k.exact = false
	for _, g := range [][]group{emergencies, heads, doctors, rests, easies, talks, grammar} {
		k.add(&k.meanings, English, g...)
	}
	k.add(&k.bare, English, bare...)
	for _, s := range []speech{english, portuguese, spanish, french, german, italian} {
		k.add(&k.meanings, s.lang, s.meanings...)
		for to, text := range map[*list]string{&k.figures: s.figures, &k.not: s.not, &k.hollow: s.hollow, &k.others: s.others, &k.self: s.self, &k.past: s.past,
			&k.now: s.now, &k.over: s.over, &k.unsure: s.unsure, &k.effort: s.effort, &k.owns: s.owns, &k.gone: s.gone, &k.well: s.well} {
			k.add(to, s.lang, group{text: text})
		}
	}
	return k
}

var english = speech{
	lang:    English,
	figures: englishFigures,
	not: `
		nae|nay|didnae|wasnae|hasnae|havenae|isnae|dinnae
		longer = have|get|got|suffer|feel|any
		not|no|never|none|without|nothing|neither|nor|nowt|isnt|wasnt|arent|werent|dont|doesnt|didnt|havent|hasnt|hadnt|aint|nobody|wont|couldnt|cannot|cant|no_one|nah|nope
		free of|from`,
	hollow: `
		cant|cannot|couldnt|never|not|cannae ~4 without
		not sure|certain|only|just|good|great|well|right|bad|too|that|really_good|even|so|going|gonna|ideal|brilliant|fun|normal|much|enough|happy|again|able|able_to|allowed
		never|nothing stop|stops|finish|sleep|slept|shake
		not|dont|didnt|doesnt|wont|cant|couldnt|cannot|isnt|wasnt|havent|aint ~1 ride|riding|race|racing|train|training|sleep|slept|sleeping|finish|finished|start|started|going|go|work|working|drink|drinking|stop|shake|rid|believe|wait|even|get|do|move|stand|keep|sit|walk|lift|turn|look|reach|touch|straighten|hold|put|help|pedal|push|carry|made|make|done|know|tell|remember|understand|see|want|need|matter|manage|intervals|plan|bike|climb|session|answer|care
		no idea|clue|reason|longer|matter|good|bother|worries|problem|problems|energy|ride|riding|bike|way|power|point|training|turbo|vo2|intervals|rush|sport|idea_why|appetite|sleep|warning|use|joke|will|big|bigger|power|legs|strength|session|cycling|race|racing|excuse
		why not
		or not
		if not
		nothing ~1 else|like|works|helps|for|serious|major|dramatic|much|to|before|since|happened|left|stays
		never ~1 had|felt|experienced|known ~4 like|before|so_bad|anything_like
		never ~1 had|felt ~2 this|such ~1 bad|tired|pain
		never ~2 again|better|worse|stops|mind|been_so
		cant|couldnt|dont|didnt|wont ~1 even|stop|breathe|breath|get|catch|shake
		no no`,
	others: `
		my|our|the|a|an|some|one|his|her|their|this|that|other|another|poor|old|young|older|younger|your|both|two|three|four|these|those|every|new $person
		the|a|an|our|some|one|that|this|another|my older|younger|old|young|local|new|fellow|junior|senior|other|visiting|poor|best|training|retired|lovely $person
		$person|boss|coach|captain|chairman|chair|leader|mechanic|guide is|has|was|had|s|out|off|got|broke|fainted|passed|fell|hit|cracked|collapsed|crashed|caught|with|needs|tested|woke|came|came_down|called_in|threw|been|fractured|banged|dislocated|smashed
		$person|coachs|captains|leaders|bosses|presidents|secretarys|treasurers ~1 got|down_with|off_with|out_with
		one|two|another|others|some|riders|rider = coughing|bleeding|vomiting|unconscious|fainting|throwing|screaming|crying|limping
		riders|rider|people|someone|somebody down ~3 ahead|front|behind|side|road
		coach|chief|sweeper|secretary|treasurer|captain|leader|mechanic|organiser ~2 fainted|passed_out|collapsed|crashed
		$person ~1 who|that ~5 has|had|broke|got|is|was|fainted|cracked|fell|crashed|collapsed|passed|caught|hit|smashed
		$person i|we ~4 has|had|broke|got|is|was|fainted|cracked|fell|collapsed|passed|caught|smashed
		$person at|from|in|on|off|of|behind|beside|next|across|up|down ~5 has|had|broke|is|was|fainted|cracked|fell|collapsed|passed_out|caught|smashed|tested|hit
		is|was|are|s out|down|off|away|laid_up|home with|sick|ill|injured
		$person who|that|which i|we ~6 has|had|broke|got|is|was|fainted|cracked|fell|collapsed|passed|caught|smashed
		$kin
		$person behind|beside|near|opposite|with|front_of|ahead_of|next_to me|us ~1 has|had|fainted|broke|is|was|fell|collapsed|hit|passed|cracked|got
		$person in front of me|us ~1 has|had|fainted|broke|is|was|fell|collapsed|hit|passed|cracked|got
		$person = unconscious|concussed|injured|hurt|collapsed|bleeding|ill|sick|down
		number|no one|two|three|seven ~1 has|is|broke|fell
		whole house|household|office|family|class|team|club|school
		half ~1 bunch|club|team|group|office|peloton|school|family|class|field|shift|team
		one|two|some|three|couple|few|half|most|all|four ~1 of ~1 group|juniors|lads|girls|guys|them|riders|bunch|boys|club|team|others|newbies|field|ladies|women|kids|others
		someone|somebody ~1 in|from|at|on|has|had|fell|crashed|fainted|was|broke|got|else|up
		everyone|everybody|people|they_all|each_of
		he|she|hes|shes|his|her|him|hers
		somebody|someone_else
		little|young|wee one|ones
		little one|fella|man|girl|guy|lad
		in laws|law
		yer man
		juniors`,
	self: `
		i|im|ive|id|me|my|myself|mine|meself`,
	past: `
		#year
		when ~2 raced|played|lived|studied|rowed|ran|swam|started ~1 bmx|hockey|football|rugby|juniors|there|abroad|uni|cycling|riding|racing
		back when ~2 raced|was|lived|played|started|were
		old ~2 injury|break|fracture|collarbone
		from|in|during ~1 junior|bmx|rugby|football|footy|hockey|rowing|student|army|running days|years
		when ~2 was|were ~1 six|seven|eight|nine|ten|five|four|three|twelve|eleven|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|twenty|thirty
		at ~1 age of
		lifetime ago
		a different|another|past|previous life
		years|yrs|year|decades|decade|winters|seasons|ages|summers ~1 ago|back|gone|earlier
		yr|y ago
		last time ~6 was|were ~1 #number|at_school|a_kid|young
		last|previous winter|season|summer|autumn|year|spring
		last seasons|years|winters
		winter|summer|year|season before ~1 last
		as ~2 bairn|wean|wee_yin|nipper|lad|lass|tot|schoolboy|schoolgirl|young_man|young_woman
		as ~2 kid|child|teenager|teen|boy|girl|youngster|junior|student|baby
		when ~2 was|were ~2 kid|child|teenager|teen|boy|girl|young|younger|little|small|#number|student|junior
		in ~1 teens|twenties|thirties|forties|childhood|youth|nineties|eighties|20s|30s|90s|80s
		used to
		at|in ~2 school|uni|university|college|primary
		school|childhood days|sports|illness
		is|are|was ~1 from #number|two|three|four|five|six|seven|eight|nine|ten years
		#number|two|three|four|five|six|seven|eight|ten|fifteen|twenty years|yrs ~1 well|clean|clear|free|now
		as ~1 teenager
		back in ~1 jan|feb|january|february|college
		back in the day|days|seventies|eighties|nineties|noughties|winter|spring|summer|autumn
		aged|age #number
		long time ago
		the 70|80|90|00 = s
		last ~1 christmas|xmas|easter
		donkeys years
		many|some|few|several|couple ~1 years|winters|seasons|moons ~1 ago|back
		disorder|anorexia|anorexic ~1 at|in
		long ~1 ago|gone|past
		once ~2 at|in ~1 school
		in ~1 nineties|eighties|army`,
	now: `
		today|todays|now|still|again|yesterday|yday|ystrday|tonight|currently|lately|keep|keeps|atm|rn|recently|suddenly
		this morning|week|evening|afternoon|morn|am|mornign
		last night|nite|nigth
		last week|month|weekend|monday|tuesday|wednesday|thursday|friday|saturday|sunday
		#number|one|two|three|four|five|few|couple days|weeks|hours ago|back
		right now
		since ~1 monday|tuesday|wednesday|thursday|friday|saturday|sunday|mon|tues|tue|wed|thurs|thu|fri|sat|sun|yesterday|yday|last|this|breakfast|lunch
		on monday|tuesday|wednesday|thursday|friday|saturday|sunday
		came|come|comes back`,
	over: `
		all healed|sorted|clear|better_now
		years|ages|months|decades|clear now
		$xray clear|clean|normal
		false alarm
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
		should|am i|we ~1 be|supposed
		in case
		had ~5 in january|february|march|april|may|june|july|august|september|october|november|december
		in general|theory
		hypothetically
		asking for
		for ~2 newsletter|article|talk|quiz|course|leaflet|poster
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
		caught|got|have|catch|picked_up ~1 whatever|what
		caught|got|picked_up ~3 off|from = my|our|the|her|his|them
		got it ~1 too
		and me
		do too`,
	well: `
		all gone|good
		so|good|fine|ok|well|time|grand|right|better|perfect|great|clear|strong|healthy now
		now ~1 all|only|just|i|fine|ok|good|perfect ~1 like|ok|drink|good|fine|perfect|scar
		back to normal
		is|are gone`,
	gone: `
		never|didnt|hasnt|not ~1 came|come|started|start|developed|develop|appeared|appear|materialised|arrived
		$complaint gone|cleared|vanished|disappeared|went_away|settled|better|healed|sorted|lifted|eased_off_completely|fine
		$complaint has|have|is|s|are ~1 completely|fully|totally|finally|all|now|nearly gone|cleared|vanished|disappeared|healed|sorted|better
		$complaint completely|fully|totally|finally|all|now gone|cleared|healed|better|sorted
		$part|$tummy|throat|nose|sinuses ~1 completely|fully|totally|finally|all|now|much fine|good|better|healed|sorted|great|perfect|normal|ok`,
}
