package care

// doctors: what a doctor must see before the next ride.
var doctors = []group{
	{Doctor, Stop, false, `
		palpit*|palpat*|palpt*|palipt*
		irregular|erratic|uneven|fluttering|skipping $heart|heartbeats|beats|beat
		arrhythm*|arryth*|arhyth*
		afib|fibrillation|tachycardia|ectopic*
		$heart ~3 skip*|flutter*|flip*|miss*|stumbl*|flop*|irregular*|irregul*|erratic*|somersault*|uneven|extra|stops|stopped|stutter*|hiccup*|jumpy|jumping|jumps|jumped
		$heart ~4 all ~1 over|shop
		$heart ~2 going|goes|went|gone|is|doing|was ~2 crazy|mental|mad|nuts|bonkers|haywire|clappers|wild|funny|weird|weirdly|flip|somersaults|dance
		$heart|$pulse ~4 rhythm|strange|funny|weird|odd
		$heart|$pulse ~4 no reason
		$pulse ~4 jump*|shot|spike* ~6 no reason
		$heart|$pulse ~4 sat|sofa|sitting|lying|resting|rest|still|bed|kitchen|desk ~4 #number
		#number ~4 sofa|couch
		$heart|$pulse ~4 #number ~4 bed|sat
		$pulse ~3 somersault*|irregular|erratic|jumpy|uneven|skip*|all_over|shop|haywire|crazy|mental|wild
		skip|skips|skipped|skipping|miss|misses|missed|missing|drop|drops|dropped|extra|jump|jumps|jumping|funny ~2 beat|beats|heartbeat|heartbeats
		flutter|fluttering|fluttery|flutters ~3 $chest|$heart
		dodgy|funny|weird|odd|strange|wonky|iffy|bad heartbeat|heartbeats|ticker|rhythm
		$heart ~3 double ~1 beat|beats|beating|thump
		extra ~1 heartbeat|heartbeats
		drum in
		hole in ~1 heart
		$heart ~2 doing|does|did|playing ~4 samba|tango|drum*|jig|solo|disco|conga|rumba|backflip*|cartwheel*|gymnastics|acrobatics|hopscotch|jazz|techno|tricks|tapdance|tap_dance|flamenco|salsa
		get|getting|got|have|having|feel|feeling|felt|started ~2 flutter|flutters|fluttering ~~6 heart|chest|pain|same|spot|beat|ribs|throat|neck|again|rides|riding
		heart ~2 race|racing|races|raced|pounding|pounds|thumping|hammering|thudding ~~6 bed|sofa|night|sitting|sat|rest|kitchen|desk|reason|nothing|easy|lying|sleep`},
	{Doctor, Ask, true, `
		$heart ~2 race|racing|races|raced|pounding|pounds|thumping|hammering|thudding`},
	{Doctor, Stop, false, `
		$broken ~4 $bone
		$bone ~5 broken|broke|fracture|fractured|fracturd|cracked|snapped|busted|shattered|dislocated|fisure|fissure
		$bone ~3 is|are|feels|looks|gone|properly ~1 broken|broke|fractured|cracked|bust
		might|may|think|could|must|probably ~2 broke|broken|fractured|broken_it
		fractur*
		dislocat*
		broken bone|bones
		collarbone|collar_bone|clavicle|wrist|rib ~1 two|half|bits|pieces
		bone ~4 outside|sticking|poking|skin
		wrist|elbow|hand|finger|fingers|thumb|collarbone|collar_bone|clavicle|shoulder|hip|jaw <7> $swollen
		$cant ~2 lift|raise|move|bend|grip|hold|straighten|close|use|turn|rotate ~4 arm|wrist|hand|fingers|finger|elbow|shoulder|leg|bars|brake|brakes|ankle|thumb
		$cant ~2 put|bear|take|carry ~2 weight|wieght|pressure
		$cant ~2 stand|step|hop|walk ~1 on = it|ankle|foot|leg|heel
		ankle|foot|toe <9> black_and_blue|black_n_blue|deformed|crooked|cracked|crack|snap|snapped|popped|wrong_angle|bent_wrong
		$cant ~2 walk ~4 since|after|on|properly|ankle|foot|knee
		$bone ~4 popped|crunch|crunched|out_of|grinding|clicking ~4 crash|fall|fell|socket|since|came_off
		$bone ~3 bump|lump|sideways|wonky|crooked|step
		bump|lump|step ~2 collarbone|collar_bone|clavicle|wrist|elbow|rib|bone
		$bone ~3 wrong|odd|other|opposite|silly way|angle|direction|shape
		$bone ~3 pointing|points|bent|facing ~2 wrong|way|sideways|odd|out
		shoulder ~3 lower|dropped|hangs|hanging ~3 other|fell|fall|crash|since
		$cant|wont ~1 make|close ~1 fist
		$bone <8> $cant|wont ~1 straighten|bend|lift|grip|rotate|turn|raise
		$bone ~2 wrong|wonky ~5 bend|crash|fall|fell|swollen|since|after
		shoulder|kneecap|hip|elbow|finger|thumb|jaw ~2 popped|came|slipped|pops|went = out
		collarbone|collarbones|clavicle|wrist|scaphoid gone
		heard|felt ~2 crack|snap|pop|crunch
		lump ~2 collarbone|bone|shoulder
		bent ~2 wrong|way
		$cant ~1 put ~1 foot
		x ray|rays|xray
		xray|xrays|xrayed
		in ~2 cast|plaster|sling|splint
		in|wearing ~1 a_boot|walking_boot|moon_boot|surgical_boot|orthopaedic_boot
		rib|ribs <8> laugh|laughing|breathe|breath|breathing|sneeze|cracked
		ligament ~3 torn|tear|ruptured|gone
		ruptured|rupture|torn ~2 achilles|ligament|acl|tendon|muscle|calf
		op|operation|surgery ~3 on|last|week|thursday|monday|friday|knee|my
		operated|surgeon|surgery
		stitches ~3 knee|leg|arm|elbow|chin`},
	{Doctor, Stop, false, `
		chest|lung|lungs infection|infecton|infectoin|infect*|infektion
		infection|infecton|infektion ~3 chest|lung|lungs
		bronchit*|brochit*|bronkit*|bronchitus
		pneumon*|pnuemon*|neumonia|numonia|pnemonia
		pleuris*|pleural
		glandular|glandualar fever
		mononucleosis|mono
		myocard*|pericard*|endocard*
		sepsis|lyme
		blood clot|clots
		dvt
		embolism|endocarditis|aneurysm|stent|pacemaker
		asthma attack
		long covid`},
	// A doctor may have given them for a tooth as well.
	{Doctor, Ask, false, `
		antibiotic*|antibio|antibiot*|penicillin|amoxicillin
		should|must|ought|better|told_me|tells_me|wants_me ~2 go|get|see ~2 to|down|up ~1 hospital|casualty|a&e|a_and_e|a_e|er|emergency
		go|get ~1 to ~1 casualty|a&e|a_and_e|a_e|emergency_room ~3 with|wiv|about|for|before|after`},
	{Doctor, Stop, false, `
		antibiotic*|antibio|antibiot*|penicillin|amoxicillin <6> chest|lung|lungs|infection|infecton|fever
		$doc ~2 banned|grounded|forbade|forbid|forbidden
		banned|grounded ~1 by ~2 $doc
		see|seeing ~2 cardiologist|heart_specialist|heart_doctor|neurologist
		cardio|a&e|hospital|er|surgery ~1 $said ~8 no|nothing|rest|resting|off|stop|wait|weeks|days|until|til|easy
		$doc|cardio ~2 wants ~3 off|resting|rest|stopped|in
		$doc|cardio ~6 until|till|til|before ~2 scan|echo|ecg|mri|results|test|bloods
		off ~1 bike ~2 until|till|til ~2 scan|echo|ecg|mri|results|test|bloods|doctor|cardiologist|appointment
		$xray ~2 wasnt|isnt|not ~2 normal|clear|good|right|great|clean|fine
		abnormal|dodgy ecg|bloods|echo|heart|scan
		ecg|holter|heart_trace|heart_tracing ~4 wrong|odd|strange|weird|unusual|irregular
		$xray ~2 abnormal|dodgy|shows|showed|crack|cracked|broken
		$doc ~4 $said ~8 nothing|resting|no|rest|off|stop|stopped|wait|lay|break|repose|weeks|week|days|not|stay|until|till|til|bed|anything|sport|exercise|antibiotics|cracked|easy_only|avoid
		$doc ~3 no bike|riding|sport|training|exercise|cycling|sports|racing
		$doc ~2 doesnt|dont|wont|didnt|not ~2 want|let|allow|like|happy
		$doc ~5 off bike|sport|work|training|exercise
		signed ~1 off ~1 exercise|sport|work|training|bike|cycling|riding|sick
		not allowed to ~1 ride|train|race|exercise|cycle
		doctors orders|order
		told ~3 $doc ~4 rest|stop|wait|no|not|weeks|days|off
		told by ~2 $doc
		told ~1 to rest
		under doctors|doctor
		told ~2 rest|no_riding|no_sport|no_exercise|stay_off ~3 #number|two|three|four|until|till|til|by
		cardiologist|ecg|echo ~4 next|tomorrow|booked|appointment|waiting|first
		#number|two|three|few|couple weeks|days off|rest ~3 orders|doctor|gp|doc|hospital
		waiting ~2 scan|mri|results|ecg|bloods|cardiologist
		$doc ~3 bronchitis|pneumonia|infection|myocarditis|fracture|cracked|broken
		$doc ~4 rest
		have|need|got ~3 ecg|mri|echo|holter`},
}
