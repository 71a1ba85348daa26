package care

// grammar finds what no wording of the tables names: a part of the body beside
// something that is wrong with it, in any words and in either order. It asks where
// the words are ordinary too.
var grammar = []group{
	{Emergency, Ask, false, `
		$cant ~1 find ~1 word|words|name ~1 for
		two|double ~1 of everything ~2 on|when|at|descent|again|in_front
		saw|see|seeing|had ~1 two|double ~1 of everything
		neck <10> hands|fingers|arms|feet|legs ~2 tingl*|numb|fizz*|buzz*|prickl*
		breath|breathing ~1 not|bad|terrible|awful|worse ~~6 stop|stopped|rest|sit
		waters ~1 broke|came|come|gone|breaking|broken
		woke|woken|wake ~2 up ~2 hospital|ambulance|icu|a&e
		balance ~2 gone|off|terrible|shot
		arm|leg|hand|foot|face ~4 not mine
		legs ~2 turned|went|like ~2 jelly ~4 down|fell|floor|sat|ground
		breath*|breathing ~3 straw
		fading|drifting ~1 in ~1 out
		had|needed ~2 catch|hold|carry|prop|lift ~1 = me
		$chest <6> rope|knot|van|truck|somebody|someone|knife|needle|blade|heavy|heaviness|grip|grips|gripped|grabbed|grabbing|caving|closing|locked|seized|burn|burns|burning|cold|wrong|strange|odd|off|catch|catches|catching|jolt|zap|shooting|electric
		$chest <5> jaw|spread|spreads|spreading|radiat*
		band|belt|strap ~2 round|around|across ~2 $chest
		jaw|teeth ~3 ache|aches|ached|aching|hurt|hurts|pain|sore|tight|throb* ~6 hard|push|pushing|effort|climb|climbs|climbing|hill|hills|sprint|exercise|riding|ride|uphill
		all|everything|world|screen|lights ~2 $went ~1 black|dark|grey|gray|blank|fuzzy|distant
		lips|face ~2 went|gone|turned|turn|turning|are|look|looked ~1 blue|purple|grey|gray
		overheat*|heat|hot|sun|degrees|sunstroke <12> stagger*|wobbl*|confus*|muddled|foggy|faint*|dizz*|collaps*|vomit*|threw_up|throwing_up|puked|puking|being_sick|goosebumps|goose_bumps|shivery|shivering|slurr*|delirious|disorient*|disorientated
		stagger*|swaying|reeling ~4 like ~2 drunk
		got_lost|lost|wrong_turn ~6 every_day|each_day|know_well|always_ride|1000_times|thousand_times|all_my_life|know_by_heart
		body|arms|limbs ~2 jerk|jerking|jerked|twitching|convuls*
		bit ~1 my ~1 tongue|cheek|lip
		sting|stung|bite|bitten|hives|allerg*|peanut|nuts|wasp|bee|hornet <12> swell*|swollen|throat|tongue|lips|breath*|face
		rash|spots|hives|blotches <10> throat|tongue|lips|breath*|whistl*|wheez*
		asthma <10> bad|worse|worst|cant|cannot|wont|awful|terrible|playing_up|acting_up|flaring|flared|night|gasp*|whistl*
		no|little|enough ~1 air|oxygen
		tongue|throat|lips ~3 swelling|swelled|swollen|swells|swell|closing|tight|tightening|puffed|puffy
		hand|arm|leg|foot|face|mouth|side|tongue <5> numb|dead|useless|limp|weak|tingl*|droop*|paralys*|heavy
		vision|sight|eye|eyes <5> blurr*|double|black|grey|tunnel|gone|lost|curtain|flashing|zigzag*|zig_zag
		words|speech|sentence|sentences <5> slurr*|jumbled|muddled|garbled|wrong|gone|stuck|mixed|backwards
		breath|breathing|air|oxygen <5> cant|couldnt|short|tight|shallow|gone|fight*|struggl*|laboured|rasping|panic`},
	{Emergency, Ask, false, `
		heartburn|indigestion ~6 uphill|climb|climbs|climbing|hard|effort|ride|riding|exercise|push
		was out for ~1 seconds|second|moment
		lights|light $went ~1 out ~6 second|seconds|moment|minute|woke|then
		air|breath ~3 doesnt|wont|not|didnt ~2 go|come|get ~1 in|through|down`},
	{Emergency, Stop, false, `
		$chest <5> corset|vice|vise|clamp|clamped|fist|weight|brick|bricks|elephant|boulder|squash*
		vision|sight|eyesight ~2 narrow*|closed|closing|shrank|shrinking|dark*|swam|swimming
		greyed|grayed|whited|browned out
		$dont ~2 remember|recall ~3 kids|wifes|husbands|childrens|daughters|sons|dogs|mums ~2 name|names
		$cant|$dont ~1 say|tell|know|remember ~3 what|which ~1 day|year|month
		cannae|canny|couldnae ~2 breathe|breath|speak|talk
		took|taken|swallowed ~4 too_many|lots_of|packet|bottle|handful|all_my|box ~3 pills|tablets|paracetamol|painkillers|meds|aspirin|ibuprofen
		too many pills|tablets|painkillers
		drank|drunk|took|taken|swallowed|ate|had ~6 sleeping ~1 pills|tablets
		pills|tablets|painkillers|bottle <10> on_purpose|deliberate*|no_accident|not_accident|not_an_accident|meant_to
		sat|sitting|lying|lie|resting|sofa|bed <6> $breathless`},
	{Doctor, Ask, true, `
		$heart|$pulse ~3 wont|doesnt|didnt|not|isnt|never ~2 slow|settle|settling|calm|drop|come_down|coming_down|go_down|slowing
		$heart|$pulse <6> weird|funny|odd|strange|bang*|thud*|thump*|hammer*|pound*|racing|flip*|skip*|jump*|stumbl*|crazy|mad|wild|irregular|uneven`},
	{Doctor, Stop, false, `
		since|after ~2 op|operation|surgery
		ordered|told|forced ~2 rest ~3 $doc
		$heart ~1 inflammation|infection|inflamed
		inflammation|inflamed ~3 $heart
		snuffbox|snuff_box
		told|advised|ordered ~1 not ~2 ride|train|race|exercise|cycle
		$doc|they|ecg|scan ~2 found|finds|spotted|detected|diagnosed|suspects ~3 af|afib|svt|murmur|clot|nodule|mass|break|arrhyth*
		atrial|ventricular
		watch|garment|app|strap ~6 irregular|arrhyth*|ecg
		clot|clots ~4 leg|lung|lungs|calf|brain|arm|pills|tablets|medicine|medication|thinners|thigh
		thinners
		calf|leg|thigh <8> hot_and_red|red_and_hot|hot_and_swollen|swollen_and_red|red_and_swollen|swollen_and_hot|fat_and_hot|hot_and_fat|hot_and_thick|thick_and_hot|hot_swollen|swollen_hot|red_swollen|swollen_red|warm_swollen|swollen_warm|warm_and_swollen|swollen_and_warm
		$limb <6> hot|warm ~3 tender|swollen
		$limb <6> red ~3 tender|swollen|hot
		$bone|$part|$limb <10> wont|doesnt|didnt|wouldnt ~2 bear|take|carry|hold ~2 weight|wieght
		cough*|phlegm|mucus|sputum <14> hurts|hurt|pain|sharp|stab|stabs ~5 breath|breathe|breathing
		pregnan*|#number_weeks|trimester <10> bleed*|spotting|contraction*|waters|cramps|cramping
		weeks ~3 bleed*|spotting
		in ~3 week ~8 blood|bleed*|spotting
		pee|wee|piss|urine|urinate|peeing|pissing <5> blood|bloody|red|pink
		poo|stool|stools|toilet|shit|bum <5> blood|bloody|black
		blood|bloody ~3 pan|loo|bowl|lavatory
		vomit*|threw|throwing|puk*|sick ~4 coffee_grounds|black|blood
		$doc ~3 $said ~4 dont|no|not|never|stop|stopped|avoid|off|without ~3 ride|riding|train|training|race|racing|exercise|cycle|cycling|sport|bike|effort|efforts|intensity|hard
		$doc ~6 wait|waiting|results|monitor|biopsy|operate|surgery
		$doc ~3 put ~2 on ~4 tablets|pills|medication|meds|thinners|blockers|steroids|antibiotics`},
	{Head, Stop, false, `
		$crash <12> cant|dont|didnt|couldnt ~1 remember|recall
		forget|forgets|forgetting|forgot|forgetful <8> $crash
		knocked|knocking|cracked heads
		headbutt* ~3 tarmac|road|kerb|ground|floor|wall|tree|post|car|van|lorry|truck|bus|bike|door|me|barrier
		egg|goose_egg|bump|lump ~5 ear|eye|temple|eyebrow|brow|cheekbone|crown
		lost|missing ~3 minutes|hour|seconds|time|bit ~4 after|since|from ~2 $crash
		asking|asked|repeating|saying ~3 same ~1 thing|things|question|questions|sentence
		hit|hits|met|into|off|against|caught|clipped ~3 $surface ~4 = $head|face|helmet`},
	{Head, Ask, false, `
		$head|face <5> $surface
		$hit ~1 by ~5 $helmet
		$hit ~1 me ~2 $helmet
		$crash <12> foggy|fog|blank|hazy|memory|remember|woozy|dazed|sleepy|nauseous|queasy|wobbly`},
	{Rest, Stop, false, `
		woozy
		temps|temp ~1 up|high|raised
		fell|landed ~2 on ~2 hand|wrist|shoulder|elbow|hip|arm|knee ~8 hurts|hurt|sore|swollen|swelling|pain|painful
		in ~1 pain ~6 push|pushing|pedal|pedalling|ride|riding|walk|walking
		bowk|bowking|bowked|boak|boaking|boked|boke|honking|yakking|heaving|retching|retched
		up ~2 all ~1 night|nite ~4 runs|sick|toilet|loo|cough*
		wi the runs
		the runs ~3 since|all|again|from|bad
		$hurts ~4 pedal|pedals|pedalling|pedaling|pedalstroke
		fever|temp|temperature|thermometer <4> #degrees|38|39|40`},
	{Rest, Ask, false, `
		not = well
		$part ~3 locked|locks|clicks|clicking|grinds|grinding|gave|gives|unstable|giving`},
	{Talk, Stop, false, `
		think*|thought|thoughts|dream*|imagine ~3 about|of ~2 not ~2 coming|come|being|waking|going ~1 home|back|up|here|around
		if ~1 i ~2 didnt|dont|never|not ~2 come|wake|return|came ~1 back|up|home
		anyone|anybody|somebody|someone|they ~2 care|notice|miss|mind ~4 if ~1 i ~2 gone|died|disappeared|vanished|dead|wasnt|didnt_come|never_came
		$wish ~8 lorry|lorries|truck|trucks|bus|car|cars|traffic|train|trains|bridge|cliff ~6 took|take|hit|hits|easy|easier|over|me
		easier|better|relief|peace ~4 if ~4 lorry|truck|bus|car|train|driver
		chew*|chewed|chewing ~6 spit*|spat
		havent|hasnt|not|dont ~2 earned|earn|deserve|deserved ~3 it|$eat
		hardly|barely|not|havent|hadnt ~2 eaten|eat|eating ~6 weight|lighter|climb|thin|skinny|lean|faster
		alowing|allowing|letting|allow ~1 myself ~3 #number
		cry|crying|panic|hate ~6 scale|scales|weigh|mirror
		scale|scales|weigh|weighing|mirror ~8 cry|panic|hate`},
	{Emergency, Ask, false, `
		squeez*|crush* <4> $heart
		$chest|ribs|ribcage|lungs <6> tingl*|sweat*|clammy|squeez*|hand|fist|thud|thudding|thump*|flutter*|acting_up|playing_up|misbehav*|weird|not_right|fuzzy|numb|spasm*|pinch*|bubbl*|gurgl*|buzz*|quiver*|sting*|needles|worried|worrying|scared
		saw|see|seeing|everything|vision ~1 white|black|spots|things|fuzzy|blurry|flashes|nothing_but
		sudden|suddenly ~2 blind*|deaf|weak*|numb*|headache|dizz*|confus*
		blind|blindness ~4 eye|left|right|suddenly
		woke|wake|waking|came_to|came_round ~8 wagon|van|ambulance|grass|ditch|hospital|car|pavement|ground|tent ~8 how|what_happened|why|remember|idea
		stiffened|went_stiff|rigid|shook|shaking ~8 floor|ground|minute|minutes|eyes|foam*
		brought|bringing|bring|taste|tasting|tasted <6> blood
		too_hot|so_hot|heat|sun|sunstroke|degrees <14> seeing_things|circles|hallucinat*|wander*|raving|splitting|skin
		skin ~2 dry|clammy|burning ~2 burning|hot|cold|dry
		knees|legs ~2 buckled|gave|folded|went_to_jelly ~4 at|on|and|so|had
		something ~3 wrong|not_right ~1 with ~1 me|$heart|$chest|head|lungs|breathing
		body|whole_body ~3 numb|shut_down|shutting_down|gave_up
		collapse*|black_out|blackout|faint*|dizzy_spell|funny_spell|blank_spell|absence ~6 again|twice|times|since`},
	{Doctor, Ask, false, `
		$heart|$pulse|strap|watch ~5 #hundreds ~3 flat|downhill|walking|easy|warm_up ~~6 felt|knees|dizzy|weird|faint*|odd
		$heart <4> rhythm|sync
		no|off|stop|without ~2 training|exercise|sport|racing|cycling|riding|bike ~2 until|till|til|before ~5 scan|bloods|results|test|tests|ecg|echo|mri|cleared|checked|doctor|cardiologist|specialist|gp
		$heart <6> thud|thudding|misbehav*|acting_up|playing_up|not_right|buzz*|quiver*|worried|worrying|scared
		$bone <6> backwards|backward|sideways|bent|huge|massive|hanging|floppy|dangling|grating|crackl*|loose
		kidney|liver|appendi*|hernia|ulcer|anaemia|anemia|hypogly*|chemo|tumour|tumor|gout|malaria|pneumothorax|ablation|cardioversion|angioplasty|meningit*|hepatitis ~4 infection|stone|stones|pain|attack|failure|diagnosed|have|got|had|found|on|for|again|since|today
		have|got|diagnosed|with|suspected ~3 kidney|liver|appendi*|hernia|ulcer|anaemia|anemia|chemo|tumour|tumor|gout|malaria|pneumothorax|meningit*|hepatitis`},
	{Doctor, Stop, false, `
		thrombosis|thrombos*|dvt|embol*
		$heart ~2 murmur|failure|block|valve|defect|condition|flutter ~3 found|diagnosed|new|says|said|told`},
	{Head, Ask, false, `
		$hit ~1 = face|nose|chin|cheek|mouth
		took|taken|got|caught|copped|received ~4 to|in|on|against $head
		$cant ~1 concentrate|focus <12> $crash
		$helmet ~3 scrap|bin|binned|finished|history|wasted|unusable|bent|open|damaged|damage
		spill|$crash <16> concentrat*|unbearable|irritable|tearful|slept|drowsy|noise ~3 is|too|unbearable|hurts|hours|all|everything
		since ~4 spill|$crash ~6 concentrat*|noise|sleepy|drowsy|moody|tearful|odd|strange`},
	{Rest, Ask, false, `
		head ~2 light|spinning|spins|splitting|swimming|exploding|fuzzy|throb*|bleeding
		brown|dark|cola ~1 urine|pee|wee|piss
		urine|pee|wee|piss ~3 brown|dark|cola|coke`},
	{Talk, Stop, false, `
		so_low|depressed|depression|hopeless|desperate <12> end|ending|die|dying|live|cope|point
		nothing matters ~2 anymore|any_more|any|now
		rather|prefer ~2 not ~1 exist|live|wake|around
		ways ~1 to ~1 do|end|die ~1 it
		punish|punishing|punished ~2 myself
		disgusting|disgusted|ashamed|guilty|hate|loathe <6> $eat|meal|meals|body|myself|mirror
		burden ~2 to|on ~2 everyone|everybody|all|family|them|others
		life ~3 pointless|meaningless|unbearable
		cant|dont ~2 see ~2 future|way_out
		jump|jumping|jumped ~3 bridge|cliff|train|roof`},
}
