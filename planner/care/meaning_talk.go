package care

// talks: thoughts of self-harm and signs of eating trouble.
var talks = []group{
	{Talk, Stop, false, `
		kill|kil|killing|hang|shoot|drown|harm|hurt|cut|cutting|hurting|harming|end|top myself|meself|myslef
		suicid*|suicde|sucide
		end|ending ~2 my life
		end|ending it ~1 all
		end it tonight|now
		like|of|about|consider* ~1 ending ~1 it|things|everything
		take|taking ~2 own life
		self harm*|harming
		selfharm*
		want|wanna|wish|wanted ~2 die|dead|dissapear|disappear
		dont|do_not|not ~2 want|wanna ~2 live|wake|exist|here|alive|be_here
		dont|not ~1 wanna ~2 live|wake|exist|here
		wish|wished ~2 dead|never|wasnt ~1 born|dead|wake|here|around
		better|beter ~1 off ~2 dead|without_me|if_i
		no|not|dont|cant|nothing ~3 point ~3 living|life|anything|here|going_on|anymore|any|around|being|it_all
		point ~1 in|of ~1 living|life|going_on|it_all|anything|any_of_it|being
		thought|thoughts|think|thinking|imagine|urge|tempted|want ~3 driving|drive|riding|ride|cycling|crashing|crash|steering|steer|swerving ~2 into|at|under ~2 wall|tree|traffic|lorry|truck|bus|car|van|train
		see way|point ~1 out|in|of
		no ~1 reason|will|point ~1 to|for|in ~1 live|living|life|carry
		no will ~2 live
		no|not|dont|cant|nothing|hardly|without ~5 reason|reasons|purpose|point|sense ~2 live|living|life|alive
		one step ~3 quiet|over|gone|peace|done
		stand|standing|stood ~2 on|at ~2 scaffold|ledge|roof|balcony|parapet|railing ~8 think|thinking|thought|step|jump|quiet|easy
		nothing ~2 live for
		not being|be|want_be ~1 here|around|alive
		dont want be here
		tired of living|life|being_alive
		sick of living|life|being_alive
		cant go|carry on ~2 living|anymore|any|like
		life ~3 not_worth|pointless|worthless|isnt_worth
		not|isnt worth ~1 living
		life|its ~2 not|isnt ~2 worth
		hopeless|worthless|pointless ~6 go_on|carry_on|life|anymore|everything|living|feel|feeling
		feel|feeling|am|im ~2 hopeless|worthless|suicidal|empty_inside
		cant|cannot ~2 go|carry ~1 on
		cant|cannot ~2 do|take|cope ~3 anymore|any_more|any_longer
		done|finished ~1 with ~1 life|living|everything
		dont ~2 deserve ~3 $eat|live|be_here|to_eat
		not ~1 waking ~1 up ~4 better|easier|fine|nice|relief
		go ~1 to ~1 sleep ~3 never|not ~1 wake
		world|family|kids|they|people ~4 better ~1 without
		dont|not ~2 care ~3 if ~1 i ~2 live|die|wake|crash|hit
		think*|thought|thoughts ~3 dying|death|ending|killing|suicide|jumping|harming|hurting_myself
		dark thoughts|place
		disappear|vanish ~2 forever|for_good
		nobody|noone|no_one ~3 miss|notice|care|remark ~3 gone|me|im
		wont need it ~8 me
		riding|ride|rode|swerv*|steer*|jump*|step* ~4 traffic|lorry|truck|bus|bridge|cliff|edge|train|tracks
		not|stop|without braking|brake|breaking ~4 bridge|descent|corner|wall|purpose
		bridge|descent|cliff|edge ~6 not|stop ~1 braking|brake
		bike ~2 go ~2 off ~1 edge|cliff
		on purpose ~6 traffic|crash|car
		traffic|crash|car ~3 on purpose
		cut|cutting|cuts ~1 my = arms|wrists|thighs|wrist
		bridge|traffic|trucks|edge|cliff|train|trains|tracks ~4 thinking|think|thought ~1 about ~1 it|jumping|ending
		bring|brought|bringing ~2 dinner|meals|meal|food|lunch|tea ~1 up
		started|start|been|again cutting|cuting|cut ~2 again|myself|arms|legs
		cut|cuts ~1 myself
		overdose|overdosed`},
	{Talk, Stop, false, `
		make|making|made|makes ~1 myself|meself sick|vomit|throw|puke|ill
		fingers|finger|toothbrush ~3 throat|mouth
		bulimi*|anorex*|anorec*|orthorex*
		eating disorder|disorders|problem|problems|issues|trouble
		binge|binged|binging|bingeing|purge|purged|purging|purges
		starv* ~1 myself|lose|weight|race|days|to
		scared|afraid|fear|terrified|frightened|panic ~3 $eat
		dont|didnt|havent|not|stopped|barely|hardly|cant ~2 eat|eaten|ate|eating ~4 days|since|weight|lighter|proper|properly|anything|all|weeks
		only|just|nothing_but ~2 eat|eating|ate|eaten|let ~4 apple|apples|lettuce|calories|salad|celery|once|one|if
		living ~2 on ~2 #number|few|lettuce|apples|coffee
		#number calories|cals|kcal ~6 day|scared|only|lighter
		apple ~4 day|days ~6 weight|lighter|race|climb
		only ~1 let ~1 myself eat
		if ~1 i ~1 eat ~4 have|must|need|ride|vomit|burn
		ate|eat|eaten|eating ~8 burn|burned|earn|cancel|punish|work_it ~2 off|it
		earn ~2 $eat|dinner
		skip|skipping|skipped meals|dinner|eating|food ~5 weight|lighter|light|race|climb
		hate ~1 myself|my_body|body
		disgusting|disgusted|gross|fat|huge ~6 eat*|food|myself|body|weight
		not|stopped|quit|avoid|avoiding|refuse|refusing ~1 eating ~5 weight|lighter|light|fat|race|climb|days|thin|lose
		$eat ~4 $eat|it|everything ~2 up|back_up
		throw|throwing|threw|bring|bringing ~2 up food|meals|dinner|lunch|eat*|breakfast
		throw|throwing|threw|bring|bringing ~2 up ~1 after ~1 every|each|meals|eating|eat|food
		disgusting|disgusted|gross|fat|huge ~5 not|stopped|wont ~1 eat|eating
		count|counting|obsess* ~3 calorie|calories ~5 cant|stop|every|panic|cry
		panic|cry|guilty|guilt ~5 eat|eating|ate|food|meal
		weigh|weighing|weighed ~1 myself ~3 times|day|every
		chew ~2 spit
		hiding|hide|lying|lie ~4 food|eat*|meals
		fasting|fasted|fast ~5 lighter|weight|days|skinny|thin ~4 race|days|climb|faint|dizzy|week
		diet pills|pill
		feel|look|am|im|still ~1 fat ~3 lycra|mirror|disgust*|even|kit
		laxatives|laxative|diet_pills
		still|way|feel|being too fat
		too fat ~1 to|race|eat
		periods|period been|being|has|have|is ~1 gone|missing|absent|away|stopped
		period|periods ~1 stopped|stoped|gone|missing|disappeared ~4 months|weeks|since|ages
		no|lost|missed period|periods ~2 since|for|in|months
		eat|eating|meal|meals ~2 once|one ~2 day
		only|just|never ~1 allow|let|allowing|letting ~1 myself ~3 $eat|salad|fruit|carbs|sugar
		scared|afraid|frightened|terrified ~1 of ~1 carbs|calories|sugar|bread|pasta|weight|fat|scales|getting_fat
		havent|hasnt|not|didnt|hardly ~3 proper|real|normal|full meal ~5 week|days|lighter|weight|since|month
		#number|one|two|three|few|couple|half crackers|cracker|ricecakes|apples|apple|lettuce|biscuits|yoghurt|banana|almonds ~12 fat|weight|lighter|skinny|skinnier|thin
		only|just|nothing|living ~2 coffee|water ~6 weight|lighter|fat|skinny|skinnier
		lost|lose|losing|no|missed|stopped ~2 period|periods ~6 weight|eat|eating|months|fat|food|training
		period|periods ~2 stopped|gone|months ~6 weight|eat*|fat|lighter
		sick|vomit|throw_up|vomiting ~1 after ~1 dinner|meals|eating|food|every|tea|lunch|meal ~4 lighter|weight|thin|again|so_i|day
		vomit|sick ~2 on purpose`},
	{Talk, Stop, false, `
		count|counting|weigh|weighing ~3 every|each ~2 almond|almonds|calorie|calories|crumb|bite|grape|gram|mouthful <14> weight|light|lighter|day|scared|thin
		no|lost|missed|without ~1 monthly|monthlies|menses|menstruation ~5 for|since|months|year|half|ages|now
		menstruation ~3 gone|stopped|away|missing`},
	{Talk, Ask, false, `
		nothing ~1 makes|has ~1 sense|meaning ~2 since|without|anymore|any_more|any_longer
		prepared|arranged|settled|sorted|written ~2 everything|affairs|goodbyes|letters <12> delete|without_me|nobody|after_that|no_longer|last
		said|saying|wrote|written ~2 goodbyes|my_goodbye|last_words
		wont|will_not be here|around|needing ~6 anymore|any_more|any_longer|after
		ate|eaten|eat ~12 nothing|none|zero ~2 yesterday|today|since|all_day|for
		want|wish it ~2 end|stop
		lost|missed my period|periods`},
}
