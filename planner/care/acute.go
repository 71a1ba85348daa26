package care

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
