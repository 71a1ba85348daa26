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
	// learning is said by who only wants to know; helps is asked for somebody else who needs help now.
	learning, helps string
}

// compile puts all tables together.
func compile() *tables {
	k := &tables{index: map[string]int{}, stems: map[byte][]stem{}, long: map[byte][]stem{}, classes: map[string]element{}, senses: map[int][]string{}}
	k.figures.close, k.others.close, k.others.closer = true, true, true
	for _, c := range englishClasses {
		k.class(c[0], c[1])
	}
	k.exact = true
	for _, c := range ordinaryClasses {
		k.class(c[0], c[1])
	}
	k.exact = false
	for _, g := range [][]group{emergencies, heads, doctors, rests, easies, talks, grammar, signs, acutes} {
		k.add(&k.meanings, English, g...)
	}
	k.add(&k.bare, English, bare...)
	for _, s := range []speech{english, portuguese, spanish, french, german, italian} {
		k.add(&k.meanings, s.lang, s.meanings...)
		for to, text := range map[*list]string{&k.figures: s.figures, &k.not: s.not, &k.hollow: s.hollow, &k.others: s.others, &k.self: s.self, &k.past: s.past,
			&k.now: s.now, &k.over: s.over, &k.unsure: s.unsure, &k.effort: s.effort, &k.owns: s.owns, &k.gone: s.gone, &k.well: s.well,
			&k.learning: s.learning, &k.helps: s.helps} {
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
		rather than
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
		none|not_one|no_part ~5 went|goes|gone|go|stopped|stops|passed|eased|eases|better|improved|improves|left|settled|calmed
		no change|changes|improvement|improving|relief|let|letup|end|doubt|better|escape|difference|way|stopping|getting
		no sign|signs ~6 going|easing|stopping|dropping|getting|improving|leaving|better|ending|settling|clearing
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
		one|two|another|others|some|riders|rider = coughing|bleeding|vomiting|unconscious|throwing|screaming|crying|limping
		riders|rider|others|somebody|someone = fainting
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
		he|she|hes|shes|his|her|him|hers|himself|herself
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
		last|previous fever|flu|fracture|concussion|fall|crash ~1 was ~2 in|at ~1 january|february|march|autumn|winter|spring|christmas
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
		was|were|back|while ~3 at|in ~2 school|uni|university|college|primary
		broke|broken|glandular|measles|mumps|asthma ~4 at|in ~1 school|uni|university|college|primary
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
		half ~1 year ~1 ago
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
		finished|completed|done_with|came_off ~3 antibiotics|antibiotic|course|tablets|pills|treatment|penicillin|amoxicillin
		antibiotics|antibiotic|course ~2 finished|done|over|completed|ended
		never since|again
		nothing|no|plus|none|never ~2 since
		all ~1 in_order|clean|green|perfect
		without|no finding|findings|abnormality
		green light ~1 from
		gone ~2 after ~3 stretching|breakfast|shower|coffee|sleep|minute|nap|water|tea
		again|was gone|fine|ok ~1 this_morning|in_a_minute|a_minute_later
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
		gradient|steep|top|summit|ramp|sprint|sprints|effort|efforts|interval|intervals|rep|reps|max|vo2|threshold|hill|climb|recovered|tt|attack|attacked|line`,
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
	learning: `
		just|only|merely ~1 curious|interested|asking|wondering|reading|checking_what|to_know|for_knowing|so_i_know|so_that_i_know
		jst curious
		always wondered
		explain ~2 what|how
		doin|doing|do|give|giving|gave|preparing|write|writing a talk
		film|movie|series ~1 about
		wat|wot|whats|wats ~1 r|are|is ~1 the ~1 sign|signs|symptoms
		does|do|can ~3 make|makes|give|gives|get you|u|people|ppl|one|riders
		do|does|can ppl|u
		curious|asking|reading ~1 because|for|as|how|what|if
		id|i|would|want|wanna|wants|like ~2 to ~1 know ~2 for|what|how|if|as|in_general|the_summer|later
		so i know
		say|says ~1 studies|study|research|science|scientists|internet|books
		can|may|should|must|does = one|anyone|people|riders|doctors|women|men
		by which|what ~4 must|should one
		a|my|one|some member|friend|colleague|student|pupil|man ~2 asks|asked|has_asked|wants
		ask|asking ~1 for ~1 a ~1 talk|friend_of_a|lecture|book|report
		why do|does riders|people|one|men|women
		does ~4 give|protect ~4 heart|stroke|concussion|you
		my ~1 mum|dad|wife|gran|mother|father ~1 says ~1 so
		member|man|colleague|student ~2 at|in ~1 work|school|club ~1 asked|asks
		what|how ~2 does ~3 feel ~1 like
		tell ~2 my ~1 juniors|kids|students|team|riders
		how ~1 do|does|would|can|should|could ~1 i|you|one|we|people|somebody|someone ~2 know|tell|recognise|recognize|spot|notice
		what ~1 are|is ~1 the ~1 sign|signs|symptoms|rules|risk|risks|dose|difference
		difference ~1 between
		newsletter|article|essay|homework|podcast|documentary|lecture|leaflet|poster|blog|magazine|quiz|exam|licence|license|seminar|workshop|syllabus|webinar|thesis
		first ~1 aid ~3 course|class|exam|lesson|evening|training|certificate|day|weekend
		course|class|training|talk|module|lesson ~4 covers|cover|about|volunteers|coaches
		heatstroke|stroke|defib|defibrillator|epipen|concussion|cpr ~2 tent|protocol|course|day|training|drill
		protocol|course|training|workshop|seminar|tent|drill ~3 coaches|volunteers|leaders|stewards|marshals|tuesday|wednesday
		read|heard|saw|learned|learnt|seen ~2 it|about|that ~3 somewhere|podcast|documentary|article|paper|news|radio|course
		learned|learnt|taught|teach ~2 about
		in theory|general|principle
		ask|asking ~2 for ~2 future|winter|later|next_year|next_season
		training|course|drill|talk ~4 what_to_do
		ride|road|group leader|captain ~3 this|summer|season|know|so
		no trouble|complaints|problems|symptoms ~2 at|now|moment|myself
		im|i_am ~1 healthy|fit|fine|well ~2 only|just|as|and|but`,
	helps: `
		what|where|who ~1 do|should|shall ~1 we ~1 do|go|call|ring|take|tell
		should|can|could|may|shall|does|is|will|would = he|she|they ~3 ride|finish|race|train|go|continue|carry|start|ok|stop|get|come|be|do|keep|still|session|home
		give|giving|get|let|make|send|tell|bring = him|her|them
		which|what ~1 plan|session|do_i ~2 for = him|her|them
		plan|session ~1 for = him|her|them
		lying|lies|sitting|sits ~1 here
		here ~1 with|is|was ~4 breath*|unconscious|react*|stung|faint*
		rides|races|riding|racing ~1 with ~1 me|us ~1 tomorrow|today|home
		ride|go|drive|get|walk ~1 home ~1 with|alone|by
		he|she ~3 doesnt|does_not|wont|not|isnt|cant|cannot ~1 react|respond|answer|wake|breathe|talk|speak|move|know`,
}
