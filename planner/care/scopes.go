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
	lang: English,
	figures: `
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
		back = wheel|brake|tyre|tire|to|home|at|on|from|of|roads|road|pocket|light|end|straight|into|by|before|in_time|soon|tomorrow
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
		$doc ~1 $said ~4 fine|good|ok|clear|normal|ride_on|ride_as_normal|train_as_normal|cleared|good_to_go
		buckle|strap|visor|mirror|magnet|peak|clip ~3 helmet|lid
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
		blood ~1 test|tests|donor|donation|sweat|and|moon|donated|pressure
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
		want|wanna ~1 purge`,
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
