package care

// emergencies: signs of the heart, the lungs, the brain and heat (IOC consensus
// 2022 and ACSM; stroke and seizure are common practice).
var emergencies = []group{
	{Emergency, Stop, false, `
		$chest <5> $pain
		indigestion <12> $chest
		crush*|squeez*|tight*|pressure|stab* <4> ribs|ribcage|lungs|shoulder_blades
		heaviness|tightness|pressure|weight ~3 on|in|across|round|around ~2 chest|front|ribs|upper
		ache|pain|pressure|tightness ~2 across ~1 front|shoulders|upper
		lungs|lung ~2 hurt|hurts|tight|stabbing
		hartattack|heartattack
		heart ~2 stopped|stops
		chestpain|chestpains
		sit|sat|sits|sitting|stood|standing|elephant|weight|brick|vice|rock|knife <4> $chest
		like ~2 belt|band|strap|rope|corset ~4 $chest|ribs
		like|someone|somebody|something ~4 stood|standing|stands|sat|sitting|sits|kneeling|parked ~1 on ~1 me
		pain|pressure|discomfort|tightness ~2 thoracic|retrosternal|substernal
		strap|band|belt ~5 ribs ~4 tight|tighter|tightening|squeez*
		$chest ~3 feels|feeling|felt ~3 weird|funny|off|odd|wrong|strange|bad|full|heavy|tite
		funny|weird|odd|strange|nasty|horrible|bad|dull ~1 feeling|sensation|fluttering ~2 $chest
		feeling|sensation|flutter ~1 in|behind|across ~1 $chest
		$chest|$heart discomfort
		angina
		heart attack
		cardiac arrest
		$heart ~2 hurt|hurts|hurting|pain|pains|painful|pian|sore|stab|stabs|stabbing|squeez*|ache|aching|tight
		pain|pains|pressure|stabbing|twinge|ache ~3 $heart
		pain|pains|ache|aching|numb*|tingl*|heavy|shooting|pressure ~5 left arm
		pain|pains|ache|aching|tingl*|shooting ~3 down ~2 arm
		left arm ~3 pain|hurt*|numb*|tingl*|ache*|aching|heavy|dead|weak|asleep|funny|weird
		jaw ~3 pain|hurts|ache|aches|aching|tight ~~8 $chest
		into ~1 jaw
		pain|pressure|ache ~4 jaw ~4 push|effort|climb|intervals|zone|hard`},
	{Emergency, Stop, false, `
		fainted|fainting|faints|fainetd|fanted|fainded|feinted
		feel|feeling|felt|nearly|almost|go|went|going|bit|all|i|if|might|could|would faint
		faint ~2 on|off|at|when|after|and|again
		passed|pass|passing|passd|past out
		passedout|blackedout|blackout|blackouts
		black|blacked|blacking|blackd ~1 out
		lost|lose|losing|loss|loose ~3 conscious*|consious*|consciousness|conciousness|senses
		unconscious|unconcious|unconsious
		out cold
		pass|passed|passing oot
		collapsed|collapse|collapsd|collapsing|colapsed|collapses
		keeled|keel over
		lights ~2 out ~2 woke|seconds|floor
		legs ~3 lights out
		went down like ~2 sack
		woke|wake|waking|came|come ~1 up|round|to|around ~2 floor|grass|verge|ground|road|ditch|tarmac|pavement|ambulance|seconds|minutes
		came|come|coming round|around ~2 after|on|in
		gone|out ~3 #number|few|couple|ten|five|some ~1 second|seconds|secs|sec|minute
		out|only|gone ~2 few second|seconds|secs
		funny turn|turns
		flaked|conked|sparked|zonked ~1 out ~3 on|at|in
		went|gone|going ~2 wobbly|faint|woozy|floppy ~4 floor|down|sat|sit
		ended up|down on|in ~1 floor|ditch|ground|verge
		spark|sparko out
		found|find ~1 me ~3 floor|ground|road|unresponsive
		unresponsive
		found ~1 me ~3 wandering|lost|confused|walking|lying
		$cant ~1 speak|talk ~3 bit|while|minute|minutes|seconds|word|all
		woke|came_to|came_round|awake ~4 people|folk|folks|faces|everyone|paramedics|lads|strangers|crowd ~3 me|round|around|over
		seeing|saw|see|had black|dark spots|dots
		dropped ~2 like ~2 sack
		eyes rolled
		had|have|took ~2 turn ~5 floor|sit|sat|woke|down|ground
		syncope
		i = $went grey|gray
		$went grey|gray|white ~4 over|down|out
		vision|sight|eyes|everything|world|it ~1 $went black|dark|white|blank|tunnel
		tunnel vision
		$dizzy ~5 fell|falling|collapse|wobbl*
		legs|knees gave|buckled|folded ~1 way|under|beneath
		swooned|swoon
		lads|they|mates|people ~3 lift|carry|catch ~1 me`},
	{Emergency, Stop, true, `
		short of breath|breth|breathe|air
		shortness of breath|breth
		breathless|breathles|breathlessness|breatless
		$cant ~2 breathe|breath|breathing|breth
		$cant|dont|didnt|never ~2 get|catch|find|take|draw|suck ~3 breath|breth|air
		$cant ~4 get ~2 breath|air ~1 in
		$cant ~2 fill|expand ~2 lungs|lung
		$cant ~3 full|deep|proper ~1 breath|breaths
		gasp|gasping|gasps|fighting|struggling|desperate ~2 air|breath|breathe
		breathing ~3 difficult|difficulty|trouble|impossible|painful|wrong|weird|shallow|laboured|rough
		trouble|difficulty|problems|problem|issues breathing|breath|breathe
		breathing|breath ~1 tight|tightness|short|restricted
		suffocat*
		anaphyla*
		throat ~1 closing|closed|swelling
		tongue|lips|lip ~1 swelling|swelled|swollen ~5 breathe|breath|sting|allerg*|ate|swallow
		hyperventilat*`},
	{Emergency, Stop, false, `
		$breathless <<8>> $rest
		$breathless <<6>> walking|walked|brushing|teeth|dressed|dressing|shower|showering|washing|tying|upstairs|stairs|speaking|easy|nothing
		$cant ~1 talk|speak ~6 breath|breathless|winded
		cant ~1 breathe|breath ~8 $rest
		breath|breathing ~4 at rest`},
	{Emergency, Stop, false, `
		cough|coughed|coughing|coughs|caughed|coughin|hacked|hacking|spat|spit|spitting|spits|phlegm|mucus|sputum|snot|vomited|threw <5> blood|bloody|bloods
		spit|spat|phlegm|saliva|cough|coughed|coughing|hacked|hacking ~3 red|pink|rusty
		pink|red|bloody ~1 froth*|foam*|phlegm|sputum|spit
		blood ~3 lungs|lung
		blood <6> cough|coughed|coughing|coughs
		blood in ~2 mucus|phlegm|spit|hanky|tissue|sink|snot
		frothy|foamy|foaming|pinkish ~2 spit|phlegm|mouth|stuff|sputum`},
	{Emergency, Stop, false, `
		confused|confusion|muddled|disorientated|disoriented|disorientation|delirious <<10>> ride|ridden|home|heat|hot|degrees|road|where|after|dizzy|lost|sun|sweating|street|training|morning|km|interval*
		got|getting|proper|feel|felt|feeling|really|suddenly confused
		disorientated|disoriented|delirious|delirium|dilirious
		$dont ~2 know|remember|recall|tell|recognise|recognize|find|work ~3 where ~1 i|was|am|my|home
		$dont ~3 know|remember|tell|recall|recognise|find ~3 what|which ~1 road|day|street|town|way ~1 i|it|was|home
		$dont ~3 know|remember|recall|find|recognise ~3 own|home|house ~2 street|name|address|road|house|way
		$dont ~2 find|remember|recognise|know|recall ~1 own|my|name ~1 house|street|name|address|own|home
		$dont ~3 know|remember|tell|recall|clue|idea ~2 how ~1 i ~2 got|get|here|there|home
		no clue|idea ~2 where ~1 i|was|am
		where is ~1 house|home
		talking|talked|speaking|spoke|saying|making rubbish|nonsense|gibberish|shite|rot|sense
		head ~2 muddled|scrambled|mush ~5 heat|hot|degrees|sun
		wandering|wandring ~6 found|lost|street`},
	{Emergency, Stop, false, `
		seizure|seizures|seziure|siezure|seizur|seisure
		convuls*
		had|having|have|took|taken|have_had fit
		fit|fits ~5 bit ~1 tongue|tounge
		epileptic|epilepsy ~2 fit|attack|seizure|episode
		stroke symptoms|signs|alert
		had|having|have|suffered|mini|like stroke
		tia
		face|mouth|lip|eyelid|cheek ~4 $numb
		$cant ~1 feel ~3 side|arm|face|leg
		lost ~2 feeling|use|strength|control ~3 arm|side|leg|face|hand
		side ~3 face|body ~3 weird|funny|dead|off|strange|wonky|numb
		smile|mouth|face ~3 wonky|lopsided|crooked|uneven|drooping|hung|hanging|sagging
		lost|losing ~1 speech|words
		talking|speaking|speech ~2 slurred|slurring|funny|weird|strange
		sounding|sounded|was|like drunk ~6 no|havent|not|water|hadnt
		half ~1 face
		numb|weak|weakness|numbness|tingl* ~3 one|left|right|whole|half = side
		pins and needles ~3 left arm
		slur|slurred|slurring|slurs|slurry
		words|speech ~4 wrong|jumbled|mixed|garbled|weird|strange
		$cant ~3 get ~2 words out
		words|word ~1 wouldnt ~2 come|out|form
		words ~3 dont|didnt|wont|not|came ~1 come|out
		$cant ~2 move ~2 left|right|one ~1 arm|leg|side
		$cant ~2 speak|talk|talking|speaking|find ~1 properly|right|straight|at|words|clearly
		speak|speech|spoke|talk strange|funny|weird
		arm|leg|hand|foot|side|body <5> one|left|right|whole|half side
		left|right|one ~1 arm|leg|side ~3 $numb
		arm|leg ~1 does|doesnt|dont|wont|not|would ~1 obey|move|work|respond|listen
		lost|losing|loss|lose ~2 sight|vision|eyesight
		cant|couldnt ~1 see ~2 one|left|right|out|anything
		see|seeing|saw|sees double
		double vision
		blind ~2 one|left|right ~1 eye|side
		arm|leg|hand|foot|fingers ~2 quit|quits|stopped|stops ~1 working|moving|responding|obeying
		arm|leg|hand|foot ~2 packed_in|packed_up|gave_up
		arm|leg|hand wouldnt|would_not|didnt|wont ~1 do|move|work|obey|listen|respond
		arm|leg|hand|side ~2 floppy|limp|lifeless|useless
		leg|arm|hand|side ~2 no|lost|losing strength|feeling|control|sensation
		vision|sight|eyesight|everything ~2 double|doubled|disappeared|vanished|patchy|blurred|blurry
		half ~1 vision|sight|eyesight
		vision|sight|eyesight ~1 $went|lost ~1 half|one|left|right|side
		$cant ~3 get ~2 sentence|word out
		$cant ~1 say ~2 name|word|words|sentence
		$cant ~1 string ~1 sentence|words
		talking|speaking ~1 like|as ~1 drunk
		me|myself faint
		wet|soiled|pissed|peed myself
		twitching|jerking|shaking ~2 uncontroll*|all_over|violently
		next thing ~3 in|on ~1 hedge|ditch|grass|floor|ground|road|verge
		legs|knees $went ~2 under
		$cant ~1 remember|recall ~2 ride_home|riding_home|getting_home|drive_home|driving_home|journey|walk_home|way_home|spin_home|cycle_home|getting_here|how_i_got|falling|landing|going_down|anything
		thunderclap headache
		worst headache`},
	{Emergency, Stop, false, `
		heat stroke|exhaustion|stroked
		heatstroke|sunstroke|heatstoke
		sun stroke
		stopped|stop|stops|not|no|longer ~1 sweating|sweat
		dry skin ~6 hot|heat
		vomit*|puk*|sick|dizzy|staggering|stumbling|delirious|goosebumps|clammy|shivering <10> heat|baking|boiling|sun ~4 confused|muddled|stopped|shivering|staggering
		cooked ~1 in ~2 heat|sun ~6 confused|staggering|sick
		shiver|shivering|shivers|shivery|goosebumps|chills <8> heat|degrees|hot|sun|baking|boiling|34|35|36|37.0|38
		overheat|overheated|overheating <8> $dizzy|confused|sick|shiver*|weird|collapsed|stopped`},
	{Emergency, Stop, false, `
		$heart ~3 flutter*|skipp*|jump*|rac*|crazy|mental|pound*|thump*|irregular|going|funny|clappers|beats <<8>> $dizzy
		palpit*|arrhythm* <<8>> $dizzy|$breathless
		heart ~5 $dizzy
		palpit* ~~10 breath|breathe|faint|chest`},
}

// heads: a knock to the head is a concussion until somebody has looked
// (consensus on concussion).
var heads = []group{
	{Head, Stop, false, `
		$hit ~5 $head
		$head ~5 hit|bounced|banged|bumped|knocked|knock|nock|whacked|smacked|cracked|bashed|smashed|slammed|struck|bump|lump|blow|bang|whack|smack|egg|stitches|impact
		$head took|takes|taken|caught|got ~3 worst|knock|nock|hit|blow|bang|whack|smack|impact|brunt|clout
		fell|landed|went|came|down|dropped|dumped ~2 on ~1 my = $head|face|chin
		gave ~2 head ~2 against|on|into
		$head first|against
		face|head|chin = first
		road|ground|tarmac|kerb|floor|wall ~1 with ~1 my = $head|face|chin|nose
		kissed|kissing|ate|eating ~1 tarmac|road|asphalt|dirt|kerb ~4 face|nose|chin|teeth|head|bleeding
		landed|fell|smashed|hit|planted ~3 face|chin
		face|chin ~3 hit|smashed|met|bounced ~3 tarmac|road|floor|ground|kerb|bars|stem|gravel
		bumped|banged|clashed|clash|butted heads|skulls
		faceplant*|faceplanted
		groggy|woozy|dazed|concussy ~~12 crash|fall|tarmac|fell|came_off|went_down
		black eye
		nose ~3 bleeding|bled|blood ~5 crash|fall|fell
		$head ~4 stitches|glued|staples|steri
		stitches|staples|glue|gash|lump|bump|cut ~3 eyebrow|$head|face
		bang|knock|blow|whack|crack|thump|clout ~1 to|on ~1 $head|face|helmet
		out for the count
		ear|ears|nose ~2 bleed*|blood|fluid|leaking ~8 $crash|$hit
		clear ~1 fluid ~2 nose|ear|ears
		blood|bleeding ~2 ear|ears
		pupils|pupil ~3 different|bigger|uneven|dilated
		whiplash
		over|on ~1 head ~3 $crash
		concuss*|concus*|cuncuss*|consuss*|conkuss*
		commotion
		head injury|trauma|knock|injuries|bang|impact
		brain injury|bleed
		saw|see|seeing|seen stars
		bell rung|ringing
		rang|rung ~1 bell
		knocked ~1 out|silly|unconscious|cold|senseless
		knocked me out
		$hit ~4 back|side ~2 $head`},
	{Head, Stop, false, `
		$helmet <6> $damaged
		foam ~2 cracked|crushed|split|crack|compressed|broken|dented
		$helmet ~3 two|2 bits|pieces|parts|halves
		$helmet ~4 hit|scraped|scratched|touched|smacked ~2 ground|road|tarmac|kerb|floor|wall
		$helmet|lid <<12>> $crash ~3 new|replace|need`},
	{Head, Stop, false, `
		$crash <<14>> $headsign
		crash|crashed|fall|fell|tumble <10> dont|cant|didnt|couldnt|not|no ~1 remember|recall|memory
		$head ~3 hurts|hurt|aches|throbbing|sore|pounding ~8 since|after ~3 $crash
		$dont ~2 remember ~2 last|rest|end|finish|crash|fall|second
		memory ~3 blank|gap|gone|hazy
		lights|light|screens ~4 hurt|hurting|hurts|annoying|disturbs|bright|bother* ~~10 $crash
		lights|light ~3 hurt|hurting|hurts|annoying|disturbs ~1 eyes
		ear|ears ~2 ringing|whistling|ring ~5 $crash|smack*|hit
		elbow|handlebar|bar|branch|door|mirror|gate|shelf|kerb|bike ~3 $head
		$head ~4 branch|kerb|curb|tarmac|asphalt|pavement|road|wall|door|window|gatepost|beam|windscreen|bonnet|cupboard|boot|ceiling|floor|ground`},
}

// acutes are signs that must not wait for a doctor's hours, where each word alone may be
// ordinary: what the pain is like, where it goes, what comes with a fever, with heat, with
// a blow to the belly or to the head (first aid manuals, common practice).
var acutes = []group{
	// A headache that comes at once or is like none before.
	{Emergency, Stop, false, `
		$headpain <12> out_of_nowhere|out_of_the_blue|from_nowhere|in_a_second|in_seconds|within_seconds|all_of_a_sudden|all_at_once|sudden|suddenly|instantly|thunderclap|explod*|explosion|like_a_switch|went_bang|like_a_bang|a_hammer|an_axe|a_thunderclap|struck_by|lightning
		$headpain <10> worst_ever|worst_of|worst_in|worst_i|worst_pain|ever_had|ever_felt|ever_known|like_never|never_had|never_felt|never_before|my_life|like_no_other
		head ~5 explod*|burst*|went_bang|went_pop|popped ~6 pain*|headache|worst|agony|hurts|stiff|sick
		$headpain <<14>> neck ~2 stiff|rigid|locked
		headpain|headache ~~12 cant ~1 see|move_my_neck`},
	// What tears in the chest or between the shoulder blades.
	{Emergency, Stop, false, `
		$tearing <10> shoulder_blades|shoulderblades|blades|between_my_shoulders|upper_back|my_spine
		sudden|suddenly|knife|knifing|stab|stabbing|skewer* <10> shoulder_blades|shoulderblades|between_my_shoulders
		$tearing <6> $chest
		$tearing|$pain ~5 through|into|towards ~2 back ~~14 sudden|suddenly|faint*|sweat*|pale|chest|cold
		sudden|suddenly ~8 $pain ~5 through ~2 back
		$tearing ~5 through|to ~3 back
		$chest|chest_pain ~5 through|into|to ~2 my ~1 back`},
	// Pain that goes to the jaw or the arm, or comes there with effort.
	{Emergency, Stop, false, `
		$pain|$tearing ~5 $goesto ~4 arm|arms|elbow|elbows|jaw|teeth|neck_and_arm
		$pain ~3 both|left|my ~1 arm|arms <5> jaw
		jaw <4> arm|arms|shoulder <8> $pain
		$pain ~5 jaw|throat <14> $effort
		jaw|throat ~5 ache|aches|aching|pain|hurts|tight|pressure|heavy ~14 $effort
		$effort ~12 jaw ~5 ache|aches|aching|pain|hurts|tight|heavy
		jaw|arm|arms ~5 $pain ~8 sweat*|clammy|cold_sweat|nausea|queasy|breathless|grey
		sweat*|clammy|cold_sweat|nausea|queasy|grey ~8 jaw|arm ~4 $pain
		elephant|vice|vise ~4 arm|jaw`},
	// A fever, or heat, and the head does not follow.
	{Emergency, Stop, false, `
		$temp|feverish|burning_up <<14>> $muddled
		$temp|feverish|burning_up|heat|heatwave|overheat* <<14>> $cant|dont|doesnt|not|things ~2 think|make|making|know|remember|there|really ~2 straight|clearly|sense|where|what|name|there
		$temp|feverish|heat|heatwave|overheat* <<14>> see|seeing|hear|hearing ~1 things ~3 not|arent|isnt ~1 there
		$sugar ~4 low|down|dropped|crashed|high ~8 $cant|dont|not ~2 think|make|making|know|remember ~2 straight|clearly|sense|where|name
		38|39|40|41|#degrees ~4 fever|temp|temperature ~~12 $muddled
		$temp ~5 40|41|42|#forty <<14>> heat|heatwave|baking|boiling|sun|sunshine|sweat*|overheat*|hot_ride|scorching|roasting
		$temp ~5 41|42
		heat|heatwave|overheat*|sunstroke|scorching|roasting|boiling|baking|sweltering <<12>> $muddled|head_all_over|head_gone|couldnt_walk|cant_walk|walk_straight|walk_in_a_line|fell_over|keeled
		overheat* <<14>> dry ~2 hot|skin
		skin ~4 hot|dry|red ~1 dry|hot|red ~~12 confus*|dizz*|head|heat|sweat*|stagger*
		stopped|stop|no|not|hardly ~2 sweat* <<12>> heat|hot|sun|degrees|shiver*|cold|goosebumps|dizz*|head`},
	// A blow to the belly.
	{Emergency, Stop, false, `
		$belly ~7 $hardbelly ~~16 $blow
		$hardbelly ~6 $belly ~~16 $blow
		$blow ~~16 $belly ~7 $hardbelly
		$blow ~~16 $hardbelly ~6 $belly
		$blow ~~14 ribs|side|flank|$belly|spleen|liver|kidney ~~14 faint*|pale|grey|clammy|cold_sweat|shoulder_tip|tip_of_my_shoulder|tip_of_the_shoulder|black_out|thirsty
		ribs|side|flank|$belly ~8 $blow ~~14 faint*|pale|grey|clammy|cold_sweat|shoulder_tip|tip_of_my_shoulder`},
	// The head after a blow, when it gets worse.
	{Emergency, Stop, false, `
		$crash|$hit|concuss* ~~18 pupil|pupils|seizure|convuls*|drowsy|wake_up|wake_me|keep_my_eyes_open|stay_awake|slurr*|one_side
		$crash ~~12 $cant|dont|no|lost ~3 feel|feeling ~3 legs|feet|hands|arms|toes
		one ~1 pupil ~4 big|bigger|huge|large|larger|wider|blown
		pupil|pupils ~4 bigger|different|uneven|unequal|huge|blown
		vomit*|threw_up|throwing_up|puk* ~2 #number|two|three|four|five|twice|several ~1 times ~~8 $head
		vomit*|puk*|throwing_up ~2 again|keep|keeps|nonstop|constantly ~~8 $hit|$crash ~3 $head
		clear|watery|salty ~2 fluid|liquid|water ~4 ear|ears|nose
		$crash|$hit|concuss* ~~16 vomit*|threw_up|throwing_up|puk* ~~8 drowsy|sleepy|worse|again|twice|keep|keeps|three
		$crash|$hit|concuss* ~~16 headache ~4 worse ~4 every|by|each|hour`},
	// Sugar, salt, cold, bones, the airway: what makes the head go, or does not wait.
	{Emergency, Stop, false, `
		$sugar ~4 low|down|dropped|crashed|high ~8 $muddled
		drank|drunk|drinking|water|bottles|litres|liters ~5 loads|lots|litres|liters|much|gallons|bottles|gallon ~~14 $muddled|puffy|swollen_hands
		loads|lots|litres|liters|gallons|too_much ~3 water ~~14 $muddled|puffy|vomit*|throwing_up|threw_up|swollen_hands
		hypotherm*
		only|just ~1 see ~1 half|part|one_side
		red|bloody|blood ~1 streaks|streak|strings|spots|specks ~5 cough*|spit|phlegm
		$cant|no|without|out_of|not ~4 air|breath ~4 tie|tying|dress|dressing|wake|sleep|lie|lying
		bone|bones ~4 sticking|poking|coming|through|out ~2 out|skin|of|through
		$airway|lips|tongue|throat|face ~4 $swells ~~10 breath*|wheez*|swallow|voice|hives|rash
		inhaler|puffer|reliever|ventolin|salbutamol|albuterol|spray <<10>> cant|cannot|couldnt ~3 sentence|speak|talk|breathe|words
		$cant ~2 wake|stay_awake|keep_awake|keep_eyes_open ~~12 $crash|$hit|since|after`},
}
