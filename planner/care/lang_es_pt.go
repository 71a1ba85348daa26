package care

var spanish = speech{
	lang: Spanish,
	meanings: []group{
		{Emergency, Stop, false, `
			duele|duelen|dolor ~8 pecho
			brazo ~1 izquierdo <8> duele|dolor|dormido|hormigueo|pecho
			dolor|dolores|opresion|presion|pinchazo|pinchazos|punzada|punzadas|molestia|molestias|quemazon|peso|apretado|aprieta|nudo <5> pecho|torax|corazon|esternon
			duele|dolia|doler|doliendo|oprime|pincha|arde|aprieta ~3 pecho|corazon
			pecho ~4 duele|aprieta|oprimido|cerrado|apretado|pincha|arde|cargado|dolia
			infarto|angina_de_pecho|paro_cardiaco|parada_cardiaca|crisis_cardiaca
			dolor|dolores|opresion|presion|molestia|tirantez|malestar|ardor ~2 toracico|toracica|retroesternal|precordial|pectoral
			hemoptisis|anafila*|hemorragia*|shock|desangr*
			accidente ~1 cerebrovascular
			no ~1 siento|sentia ~2 brazo|pierna|mano|cara|lado|pie
			crisis ~1 epileptica|convulsiva
			desmaye|desmayo|desmayado|desmayada|desmaya|desmayarme|desmayandome|sincope|desvanecido|desvaneci|desplomado|desplome|desplomo
			perdi|perdido|perdida|perder ~2 conocimiento|conciencia|sentido|consciencia
			caido|cai|cayo ~1 redondo|redonda|desplomado
			quede|quedado|quedo ~1 inconsciente|ko
			inconsciente|lipotimia
			ido ~3 segundos|segundo
			vi|veo|vista|veia ~2 negro|borroso|nublado
			falta|faltaba|faltando ~2 aire
			no|cuesta|costaba|cuesta_mucho|dificultad|dificil|puedo ~3 respirar
			ahogo|ahogaba|ahogando|asfixia|sin_aire|disnea
			tosido|tosi|toser|escupido|escupo|escupi|toso|esputo|tos|tosiendo|escupir ~3 sangre
			sangre ~3 toser|tosiendo|escupir|tos
			confundido|confusa|confuso|desorientado|desorientada|confusion|desubicado
			no ~1 sabia|recordaba|se|recuerdo ~2 donde|quien|como
			convulsion|convulsiones|convulsione|epilept*|epilepsia
			ataque ~2 epilepsia|corazon|epileptico
			ictus|derrame|trombosis_cerebral
			durmio ~2 cara|brazo|boca|mano
			cara|boca|labio ~3 torcida|dormida|paralizada|caida|adormecida|torcido|dormido
			brazo|pierna|mano|lado ~4 dormido|dormida|paralizado|paralizada|hormigueo|adormecido|entumecido
			brazo izquierdo ~3 duele|dolor|hormigueo|dormido
			no ~1 podia|puedo ~2 hablar
			hablaba|hablar|hablo ~1 raro|mal|trabado
			veo|veia doble
			golpe ~2 calor
			insolacion
			deje|dejado|dejo ~2 sudar
			palpitaciones|corazon <<8>> mareo|mareado|mareada|desmayo|ahogo|pecho`},
		{Head, Stop, false, `
			golpe|golpazo|golpeado|golpee|hostia|leche|porrazo|di|dado|chichon|golpear|golpeo|pegue|pegado|coscorron|trompazo|choque|aterrice|aterrizado|caido|cai <6> cabeza|coco|frente|sien|craneo
			cabeza ~3 contra
			casco ~5 roto|rota|partido|partio|rajado|raja|rompio|abollado|grieta|destrozado|hundido|jodido|agrietado|cascado|reventado|rajo|fisura|trozos|pedazos|destrozo
			roto|partido|rajado|rompi|parti ~2 casco
			conmocion|contusion_cerebral|conmocionado
			traumatismo ~2 craneo*|craneal|cabeza
			caida|caido|cai|hostia|tortazo|trompazo <<14>> mareado|mareada|mareo|dolor_de_cabeza|vomitado|vomito|nauseas|cabeza|atontado|atontada|recuerdo|acuerdo|aturdido|luz
			vi|veo|ver ~1 estrellas|estrellitas
			caida|cai|caido <6> no recuerdo|acuerdo|me_acuerdo
			noqueado`},
		{Doctor, Stop, false, `
			palpitacion|palpitaciones|arritmia*|taquicardia*|extrasistoles|fibrilacion
			corazon ~5 saltos|salta|saltando|saltar|desbocado|acelera|acelerado|raro|vuelcos|vuelco|irregular|brincos|loco|fuerte|latidos|disparado
			corazon ~2 mil|1000
			latidos ~2 raros|irregulares|saltan
			clavicula|muneca|costilla|costillas|brazo|dedo|mano|codo|tobillo|hombro|pie|pierna|pulgar|cadera|nariz|escafoides|hueso <6> roto|rota|rompi|roto|partido|partida|fractura|fracturado|fracturada|fisura|rotas|dislocado|salido|romper|rompido|luxado
			fractura|fracturas|luxacion|fisura
			muneca|tobillo|mano|codo|dedo ~4 hinchado|hinchada|morado|inflamado|inflamada
			radiografia|escayola|escayolado|ferula
			bronquitis|neumonia|pulmonia|miocarditis|pericarditis|mononucleosis|trombosis|embolia
			infeccion ~2 pecho|pulmon|respiratoria|pulmones
			antibiotico|antibioticos
			medico|medica|doctor|doctora|cardiologo|fisio|traumatologo|hospital|cirujano|traumatologa ~6 reposo|parar|pare|descansar|descanso|no_entrene|no_salga|no_monte|no_haga|nada_de|dias|semanas|prohibido|prohibio|baja
			reposo ~2 absoluto
			operado|operada|operaron|operacion`},
		{Rest, Stop, false, `
			fiebre|febril|calentura|escalofrios|decimas|destemplado
			gripe|covid|corona|gripazo
			tos|toser|tosiendo|flemas|flema|mocos_verdes
			vomitando|vomito|vomitar|vomitado|vomite|vomitos|vomitera|gastroenteritis|gastro|diarrea|cagalera|descomposicion|intoxicacion|gastritis
			mal ~1 estomago|barriga
			dolor|duele ~2 estomago|barriga|tripa|tripas
			duele todo
			dolor|dolores ~2 todo ~1 cuerpo
			cuerpo ~1 cortado
			malo|mala|enfermo|enferma|enfermado ~2 cama|hoy|desde|estoy
			estoy ~2 malo|mala|enfermo|enferma|pachucho|chungo
			nauseas|mareo|mareos|mareado|mareada|migrana
			dolor ~2 cabeza
			duele|dolor|molestia|pinchazo|molesta|doliendo|dolores ~3 rodilla|espalda|cadera|tobillo|hombro|aquiles|tendon|cuello|lumbar|lumbares|gemelo|ingle|muneca|codo|costillas|cabeza|pie
			rodilla|espalda|cadera|tobillo|hombro|aquiles|tendon|lumbares ~4 duele|dolor|hinchada|molesta|fastidiada|jodida|inflamado|pinchazo|tocada|tocado|mata
			tendinitis|ciatica|lumbalgia|esguince|rotura_fibrilar|contractura|lesion|lesionado|lesionada|lumbago`},
		{Easy, Stop, false, `
			resfriado|resfriada|constipado|constipada|catarro|estornudos|mocos|mocoso|acatarrado
			dolor ~2 garganta
			garganta ~2 irritada|duele
			nariz ~2 tapada|taponada`},
		{Talk, Stop, false, `
			no ~2 quiero ~2 vivir|seguir|estar_aqui|despertar|existir
			quiero|queria|ganas_de|prefiero ~1 morir|morirme|desaparecer|matarme
			quitarme ~2 vida|medio
			matarme|suicid*|autolesion*
			me ~1 corto|corte|cortado ~2 brazos|otra|vez
			acabar ~2 con ~2 todo|vida
			ganas ~2 vivir
			mejor ~1 sin mi
			no ~1 tiene|veo|le_veo ~1 sentido ~2 vivir|vida|nada|seguir
			provoco|provoque|provocarme|provocando ~2 vomito|vomitos|vomitar
			dedos ~3 garganta
			vomito|vomitar|vomitando ~3 despues|tras|aposta|adrede ~3 comer|cenar|comidas
			anorex*|bulimi*|trastorno_alimentario|laxantes
			miedo ~2 comer|engordar
			como|comer|comido ~2 nada|casi_nada|solo ~5 peso|adelgazar|ligero|ligera|dias|manzana`},
	},
	figures: `
		enfermo|enferma|malo|mala ~1 de ~1 tanto|tanta|tantos|esperar
		muero|muerto|muerta|morir|morirme ~2 ganas|risa|hambre|sed|calor
		viento ~2 cabeza|cara
		cuesta|subida|puerto|rampa|etapa|precio ~2 infarto
		de infarto
		rompio|rompi|roto|partio|partido|rota ~1 cadena|radio|cambio|cable|cuadro|llanta|rueda
		cadena|radio|cuadro ~2 roto|rota|rompio|partido
		piernas ~3 reventadas|ardiendo|duelen|rotas|muertas|cargadas|destrozadas
		cabeza ~2 pelotón|peloton|carrera|grupo
		rompepiernas|rompecorazones
		ataque ~2 final|ultimo|subida
		casi me mata|muero
		me mato ~2 subida|cuesta
		sin aire ~3 rueda|tubeless|neumatico
		hasta ~1 cabeza`,
	not: `no|nunca|jamas|sin|ningun|ninguna|ninguno|nada|ni|tampoco`,
	hollow: `
		no solo|muy
		no ~1 se|estoy_seguro|puedo|podia|dormi|salgo|entreno|entrene|quiero
		no ~2 pare|parar|dormir|salir|entrenar|rodar
		nada ~1 grave|mas
		nada de bici|salir|entrenar`,
	others: `
		mi|un|una|el|la|mis|su|nuestro hermano|hermana|mujer|marido|hija|hijo|hijos|padre|madre|colega|amigo|amiga|companero|companera|perro|perra|gato|jefe|jefa|vecino|vecina|abuelo|abuela|novio|novia|suegra|suegro|primo|prima|nino|nina|ninos|peque|bebe|tio_mio|chaval|entrenador
		hermano|hermana|marido|hija|hijo|padre|madre|companero|companera|colega|amigo|novia|novio|vecino|jefe|abuelo|abuela|peque
		media ~1 grupeta|peña|club
		el|ella ~1 tiene|esta|tuvo
		alguien`,
	self: `yo|me|mi|he|tengo|estoy|siento|noto`,
	past: `
		#year
		hace ~3 anos|ano|decadas|siglos|tiempo
		hace mil anos
		de|cuando ~2 crio|cria|nino|nina|pequeno|pequena|chaval|joven|adolescente
		en ~1 adolescencia|infancia|juventud
		cuando ~1 era
		ano|invierno|temporada|verano pasado|pasada
		sin problemas desde entonces`,
	now:    `hoy|ahora|ayer|todavia|aun|sigo|otra_vez|esta_manana|esta_semana|anoche|de_nuevo|ultimamente`,
	over:   `superado|curado|recuperado|recuperada|curada`,
	unsure: `y_si|por_si`,
	effort: `puerto|cuesta|sprint|subida`,
	owns:   `yo_tambien`,
}

var portuguese = speech{
	lang: Portuguese,
	meanings: []group{
		{Emergency, Stop, false, `
			dor|dores|aperto|apertos|pressao|pontada|pontadas|peso|queimacao|ardor|picada|moinha|fisgada <6> peito|torax|coracao|esterno
			doi|doeu|doer|apertou|aperta|apertado|arde|dor ~4 peito
			peito ~4 doi|doeu|aperta|apertado|apertou|arde|pesado|pressionado|a_doer
			enfarte|infarto|ataque_cardiaco|angina|paragem_cardiaca|parada_cardiaca
			dor|dores|aperto|opressao|pressao|desconforto|mal_estar ~2 toracica|toracico|retroesternal|precordial
			hemoptise|anafila*|hemorragia*|choque_anafil*
			acidente ~1 vascular
			nao ~1 sinto|sentia ~2 braco|perna|mao|cara|lado|pe
			crise ~1 epiletica|epileptica|convulsiva
			desmaiei|desmaio|desmaiar|desmaiado|desmaiada|desmaiou|sincope|apaguei|apagao
			perdi|perda|perder ~2 sentidos|consciencia|conhecimento
			cai ~1 redondo|redonda|desamparado|inanimado
			inconsciente|desfaleci|desfalecer
			ficou|vi|ficar ~2 preto|escuro|negro
			falta ~2 ar
			nao|custa|dificuldade|mal|dificuldades ~3 respirar
			sufocar|sufocado|ofegante_parado
			estou|fico|fiquei|tou ~1 sem ar
		sem ar ~5 parado|sofa|deitado|sentado|repouso|casa|cama
			tossi|tossir|cuspi|cuspir|tosse|escarro|expetoracao|tusso|cuspo ~3 sangue
			sangue ~3 tosse|tossir|cuspir
			confuso|confusa|baralhado|desorientado|desorientada|confusao
			nao ~2 sabia|lembro|lembrava|sei ~2 onde|quem|como|caminho
			convulsao|convulsoes|epilepsia|epilet*|epilept*
			ataque ~2 epilepsia|epiletico
			avc|derrame|trombose_cerebral
			cara|boca|face|rosto ~3 torta|dormente|lado|paralisada|descaida|torto|dormiu
			braco|perna|mao|lado ~4 dormente|dormentes|paralisado|formigueiro|formigar|dormencia|paralisada|sem_forca
			braco esquerdo ~3 doi|dor|dormente|formigueiro
			nao ~2 conseguia|consegui|consigo ~2 falar
			falar|fala ~2 esquisito|arrastada|enrolada|estranho
			ver|vejo|via ~1 dobrar|dobro|duplo
			golpe ~2 calor
			insolacao
			parei|deixei ~2 suar
			palpitacoes|coracao <<8>> tonto|tonta|tontura|tonturas|desmai*|ar|peito`},
		{Head, Stop, false, `
			bati|batida|bateu|bater|pancada|embati|galo|cabecada|levei|cai|aterrei|dei|batendo|toque|embate|traumatismo <6> cabeca|testa|nuca|cranio
			cabeca ~3 contra|chao|passeio|muro|alcatrao
			capacete ~4 rachou|rachado|partiu|partido|partida|rachadura|amolgado|estragado|destruido|racha|quebrado|quebrou|abriu|partiu_se|bocados
			parti|rachei|partir|rachado ~2 capacete
			concussao|comocao|traumatismo
			traumatismo ~1 craniano
			queda|cai|trambolhao|tombo <<14>> cabeca|tonto|tonta|enjoado|enjoada|enjoos|vomitei|lembro|nauseas|zonzo|luz
			vi|ver|vejo ~1 estrelas`},
		{Doctor, Stop, false, `
			palpitacao|palpitacoes|arritmia*|taquicardia*|extrassistoles|fibrilhacao
			coracao ~4 saltos|salta|saltar|disparado|disparar|acelerado|batidas|irregular|falha|falhar|galope|doido|pulos|aos_saltos|maluco|pular
			clavicula|pulso|costela|costelas|braco|dedo|mao|cotovelo|tornozelo|ombro|pe|perna|polegar|anca|nariz|escafoide|osso <5> parti|partido|partida|partiu|partidas|fratura|fraturei|fraturado|rachado|rachada|quebrado|quebrei|quebrada|deslocado|deslocada|partir|fissura
			fratura|fractura|fissura|luxacao
			pulso|tornozelo|mao|cotovelo|dedo ~4 inchado|inchada|roxo|enorme
			raio x
			gesso|engessado|tala
			bronquite|pneumonia|miocardite|pericardite|mononucleose|embolia|trombose
			infecao|infeccao ~2 respiratoria|pulmonar|peito|pulmao|pulmoes
			antibiotico|antibioticos
			medico|medica|doutor|doutora|cardiologista|fisio|hospital|ortopedista|cirurgiao|fisioterapeuta ~6 parar|repouso|descansar|descanso|nao|sem|dias|semanas|semana|proibiu|proibido|baixa|pausa
			operado|operada|operacao|cirurgia`},
		{Rest, Stop, false, `
			febre|febril|arrepios|calafrios|febrao
			gripe|covid|corona|engripado|gripado
			tosse|tossir|expetoracao|catarro|a_tossir
			vomitei|vomitar|vomitos|vomito|gastro|gastroenterite|diarreia|caganeira|intoxicacao|virose|gomitar
			dor|dores|mal|mal_disposto ~2 barriga|estomago
			dores|dor ~2 corpo
			doi|doem ~1 tudo|corpo
			doente|maldisposto|maldisposta|enjoado|enjoada|tonturas|tonto|tonta|nauseas|enxaqueca|enjoos
			dor|dores ~2 cabeca
			dor|dores|doi|doer|pontada|picada|lesao|moido ~3 joelho|costas|anca|tornozelo|ombro|aquiles|tendao|pescoco|lombar|gemeo|virilha|pulso|cotovelo|costelas|pe|joelhos
			joelho|costas|anca|tornozelo|ombro|aquiles|tendao|lombar ~4 doi|doer|dor|inchado|doido|doem|mata|dores|inflamado
			tendinite|ciatica|lumbago|entorse|rotura|contratura|lesao|lesionado|lesionada|lesionei|distensao`},
		{Easy, Stop, false, `
			constipado|constipada|constipacao|resfriado|ranho|espirros|ranhoca|pingo_no_nariz
			dor|dores ~2 garganta
			garganta ~2 arranhada|doi|irritada|inflamada
			nariz ~2 entupido|pingar|corre`},
		{Talk, Stop, false, `
			nao ~2 quero ~2 viver|acordar|existir|estar_aqui|estar_ca|ca_estar
			quero|queria|apetece|vontade_de|penso_em ~1 morrer|desaparecer|matar_me
			vontade ~2 viver
			acabar ~2 com ~2 tudo|vida|isto
			matar me|matarme
			suicid*|automutil*
			corto|cortei|cortar ~1 me ~2 bracos|outra|vez|pulsos
			por ~1 fim ~2 vida
			melhor ~1 sem mim
			sentido ~2 viver|vida
			faco|fazer|provoco|provocar ~3 vomitar|vomito|vomitos
			dedos ~3 garganta
			vomito|vomitar|vomitei ~3 depois|proposito ~3 comer|jantar|refeicoes|refeicao
			anorex*|bulimi*|disturbio_alimentar|laxantes
			medo ~2 comer|engordar
			nao ~1 como|comi|comer ~4 dias|peso|leve|emagrecer`},
	},
	figures: `
		subida|rampa|serra|treino|etapa ~3 matou|matando|matar|mata|matava
		ia me matando
		matou me
		morrer ~2 rir|vontade|fome|sede|calor|rio
		vento ~2 cabeca|frente|cara
		parti|partiu|partida|partido|quebrei ~2 corrente|raio|cabo|quadro|roda
		corrente|raio|quadro ~2 partiu|partida|partido|parti
		fita ~2 peito|cardiaca
		de partir ~1 coracao
		quebra costelas
		pernas ~3 pesadas|mortas|doridas|arder|partidas|doem
		coracao ~2 boca|maos
		cabeca ~2 pelotao|corrida|grupo
		febre ~2 corrida|prova
		de cabeca|cor`,
	not: `nao|nunca|jamais|sem|nenhum|nenhuma|nada|nem|tampouco`,
	hollow: `
		nao so|muito
		nao ~1 sei|consigo|consegui|conseguia|dormi|treino|quero|vou|posso|fui
		nada ~1 grave|demais|serio
		nao ~2 dormir|treinar|pedalar|respirar`,
	others: `
		meu|minha|meus|minhas|um|uma|o|a|seu|sua|nosso irmao|irma|mulher|marido|filha|filho|filhos|pai|mae|colega|amigo|amiga|companheiro|cao|gato|chefe|vizinho|vizinha|avo|namorado|namorada|sogra|primo|prima|miudo|miuda|miudos|bebe|crianca|treinador|esposa
		irmao|irma|marido|filha|filho|pai|mae|colega|amigo|amiga|namorada|namorado|vizinho|chefe|miudo
		meio ~1 grupo|pelotao|clube
		ele|ela|alguem`,
	self: `eu|me|meu|minha|tenho|estou|tou|sinto|senti|cai|bati|parti|fiz`,
	past: `
		#year
		ha ~3 anos|ano|decadas|seculos
		quando ~2 era ~2 crianca|miudo|miuda|puto|jovem|pequeno|adolescente|novo
		em ~1 crianca|miudo|puto
		na ~1 adolescencia|infancia|juventude
		ano|inverno|epoca|verao passado|passada
		desde ~1 ai ~1 nunca`,
	now: `hoje|agora|ontem|ainda|outra_vez|esta_manha|esta_semana|novamente|de_novo|ultimamente|continuo`,
	over: `
		agora_ja_esta|ja_nao_sinto
		agora ~1 esta ~1 tudo ~1 bem
		ja ta ~1 tudo
		superado|curado|recuperado|curada|recuperada`,
	unsure: `e_se|caso`,
	effort: `subida|rampa|sprint|topo`,
	owns:   `eu_tambem`,
}
