package care

var portuguese = speech{
	lang: Portuguese,
	meanings: []group{
		{Emergency, Stop, false, `
			dor|dores|aperto|apertos|pressao|pontada|pontadas|peso|queimacao|ardor|picada|moinha|fisgada <6> peito|torax|coracao|esterno
			doi|doeu|doer|apertou|aperta|apertado|arde|dor ~4 peito
			peito ~4 doi|doeu|aperta|apertado|apertou|arde|pesado|pressionado|a_doer
			enfarte|infarto|ataque_cardiaco|angina|paragem_cardiaca
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
