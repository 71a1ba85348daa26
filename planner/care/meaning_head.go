package care

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
