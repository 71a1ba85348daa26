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
			infarto|angina_de_pecho|paro_cardiaco
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
