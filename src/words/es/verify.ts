import type { VERIFY_WORDS } from '../en/verify';
import type { Translation } from '../translation';

export const VERIFY_WORDS_ES: Translation<typeof VERIFY_WORDS> = {
  'verify.why.line-neutral':
    '{conductor} a neutro, en baja impedancia: muestra que es {role} alimentada y no una tensión acoplada.',
  'verify.why.line-ground':
    '{conductor} a tierra: muestra que neutro y tierra concuerdan, y descubre un neutro abierto.',
  'verify.why.floating-ground':
    '{conductor} a tierra: en este sistema ambas líneas deben flotar cerca de la mitad; un valor cerca de 0 o del total significa que una línea tiene falla a tierra.',
  'verify.why.line-line': '{conductor} a otra línea: muestra que son fases distintas, y qué clase de sistema es.',
  'verify.why.own-pole':
    '{conductor} al polo marcado de {role}: unos 0 V en su propio polo. Ninguna otra cosa indica la letra.',
  'verify.why.neutral-ground':
    '{conductor} a tierra: un conductor puesto a tierra muestra a lo sumo unos pocos voltios.',
  'verify.why.neutral-line':
    '{conductor} a cada línea, en baja impedancia: un neutro abierto no puede sostener la tensión de línea.',
  'verify.why.neutral-isolation':
    'Ausencia de tensión probada, {conductor} desconectado: abierto a tierra. Con tensión, un conductor puesto a tierra y uno de puesta a tierra de equipos leen lo mismo.',
  'verify.why.grounding-zero': '{conductor} a tierra comprobada: unos 0 V.',
  'verify.why.grounding-line': 'Una línea a {conductor}: toda la tensión de línea a tierra.',
  'verify.why.grounding-bond':
    'Ausencia de tensión probada, {conductor} desconectado: cerrado con el gabinete en el otro extremo.',
  'verify.why.poles': '{conductor} al otro polo, CC con su signo: muestra la polaridad.',
  'verify.why.pole-ground':
    '{conductor} a tierra, CC con su signo: muestra de qué lado está, y si un polo está puesto a tierra.',
  'verify.why.switch-on': '{conductor} a neutro con el interruptor encendido: toda la tensión de línea.',
  'verify.why.switch-off': '{conductor} a neutro con el interruptor apagado: unos 0 V en baja impedancia.',
  'verify.why.switch-both':
    '{conductor} a neutro, encendido desde la otra posición de ambos interruptores: un retorno sigue energizado, un viajero no.',
  'verify.why.traveler':
    '{conductor} a neutro en esta posición: exactamente uno de los dos viajeros está energizado, y mover el interruptor lejano no cambia ninguno.',
  'verify.why.rotation': 'Rotación de las tres líneas: los motores giran al revés si dos están cambiadas.',
  'verify.why.survey': 'Todavía no se afirma nada demostrable de {conductor}: vea qué muestra a tierra.',
  'verify.why.settle': 'Léalo otra vez: {value} contradice el mapa, y esto distingue las explicaciones.',
  'verify.why.tell-apart': '{conductor} aquí: las explicaciones que quedan esperan voltios distintos de él.',
  'verify.why.ring-open':
    'Ausencia de tensión probada, {conductor} desconectado en ambos extremos: abierto a tierra antes de puentear nada.',
  'verify.why.ring-closed':
    'Puentee a tierra solo el extremo lejano de {conductor}: solo él se lee ahora cerrado. Numere ambos extremos.',
  'verify.why.tone':
    'Ausencia de tensión probada, ambos extremos desconectados: envíe un tono por {conductor} contra tierra y escuche en los extremos lejanos. El más fuerte es el primero que hay que probar; un tono se acopla a los vecinos y por sí solo no prueba nada.',

  'verify.ring.tied':
    '{conductor} está cerrado a tierra aunque ambos extremos están desconectados: no está desconectado en todas partes, tiene un empalme en el camino, o una punta está en otro lugar. Averigüe cuál antes de puentear nada.',
  'verify.ring.not-this-end':
    '{conductor} sigue abierto: el extremo puenteado no es el suyo, o está cortado en el camino. Quite el puente y pruebe otro extremo lejano.',
  'verify.ring.no-tone':
    '{conductor} se lee cerrado con ese extremo lejano puenteado, pero no pasó ningún tono: lea ambos otra vez. El puente puede estar en otro conductor que lo toca.',

  'verify.rules-out.role': 'que {conductor} sea {role} ({system})',
  'verify.rules-out.swapped': '{first} y {second} cambiados',
  'verify.rules-out.disconnected': '{conductor} sin conexión alguna',
  'verify.rules-out.open-neutral': 'un neutro abierto en {conductor}',

  'verify.question.kind': 'Este valor no corresponde a esta función del medidor.',
  'verify.question.third-lead': 'Una prueba de rotación tiene tres puntas. ¿Dónde estaba la tercera?',
  'verify.question.same-place': 'Dos puntas están en el mismo lugar.',
  'verify.question.overload':
    'OL en una escala de tensión significa que la tensión supera la escala. Deténgase y revise la escala y la clasificación del medidor.',
  'verify.question.not-a-number': 'Esto no es un número.',
  'verify.question.negative': '{value} V es negativo, y una escala de CA no lo muestra. ¿Era CC?',
  'verify.question.too-high':
    '{value} V supera todo aquello para lo que sirve esta herramienta. ¿Un dígito de más? Si es real, deténgase y llame a la persona responsable del sitio.',
  'verify.question.above-site':
    '{value} V es más de lo que tiene cualquier sistema que se cree presente (hasta {limit} V). Léalo otra vez antes de que cuente.',
  'verify.question.continuity-live': 'La continuidad solo se lee con la ausencia de tensión probada. ¿Lo estaba?',
  'verify.question.tone-live':
    'Un tono solo se envía con la ausencia de tensión probada y ambos extremos desconectados. ¿Lo estaba?',
  'verify.question.direct-on-ac':
    'El selector está en CC, pero este sistema es de CA: leería cerca de 0 en un conductor energizado.',
  'verify.question.ac-on-direct':
    'El selector está en CA, pero este sistema es de CC: leería cerca de 0 en un conductor energizado.',

  'verify.explain.swapped': '{first} y {second} están cambiados: {first} es {other}, {second} es {role}.',
  'verify.explain.reversed-polarity': 'La polaridad está invertida: {first} es {other} y {second} es {role}.',
  'verify.explain.other-system': 'Los conductores pertenecen a otro sistema: {system}.',
  'verify.explain.other-role':
    '{conductor} es {role} ({count} {count:conductor difiere|conductores difieren} del mapa).',
  'verify.explain.disconnected':
    '{conductor} no está conectado a nada en su alimentación; lo que muestra el medidor viene acoplado de sus vecinos.',
  'verify.explain.open-neutral': 'El neutro {conductor} está abierto hacia la alimentación y flota entre las líneas.',
  'verify.explain.shared-neutral': 'El neutro {conductor} lleva la corriente de retorno de otro circuito.',
  'verify.explain.back-feed': '{conductor} perdió su alimentación; un motor o una carga de otra fase lo realimenta.',
  'verify.explain.ground-fault': 'Una línea del sistema no puesto a tierra tiene falla a tierra.',
  'verify.explain.reading-mistake': 'La lectura {value} se tecleó mal, o una punta estaba en otro lugar.',
  'verify.explain.out-of-range':
    'Todo es como dice el mapa, y aun así {value} V queda fuera del rango que permite su regla: la alimentación es demasiado alta, demasiado baja o desigual. Lea otra vez y avise a quien cuida la alimentación.',
  'verify.explain.uneven':
    'Cada lectura está en su banda, pero juntas no pertenecen a una misma alimentación: fases muy desiguales, un neutro desplazado, o valores leídos en momentos distintos. Léalas otra vez, una tras otra.',
  'verify.explain.wrong-function': 'El medidor estaba en otra función cuando mostró {value}.',

  'verify.change.role': '{conductor}: según las lecturas ahora {to} ({system}, {percent} %), antes {from}.',
  'verify.change.metered': '{conductor} ahora está medido como {role}: todas las lecturas exigidas están y concuerdan.',
  'verify.change.disputed': '{conductor} ahora está en disputa: una lectura contradice {role}.',
  'verify.change.by-color': '{conductor} vuelve a estar por color (estaba {was}): faltan lecturas para {role}.',

  'verify.aside.superseded': 'El valor anterior {value} se conserva pero ya no cuenta.',
  'verify.aside.taken-back': '{value} se retiró: se conserva y ya no cuenta.',
  'verify.aside.questioned': '{value} no cuenta hasta que se confirme.',
  'verify.aside.taken-before-an-edit': '{value} se tomó antes de editar el conductor y ya no cuenta.',
  'verify.aside.unsigned': '{value} no cuenta: le falta un nombre o una hora.',

  'verify.beyond-normal':
    '{value} V concuerda, pero queda fuera del rango normal ({low} a {high} V, {rule} rango {range}, {place}). Tales voltios deberían ser raros y breves: avise a quien cuida la alimentación.',

  'verify.stop.wet-or-damaged':
    'Equipo mojado o dañado: no lo abra ni mida. Aléjese y llame a la persona responsable del sitio.',
  'verify.stop.over-600':
    '{volts} V supera los 600 V: fuera de aquello para lo que sirve esta herramienta. Llame a una persona calificada para esa tensión.',
  'verify.stop.unknown-system':
    'Aquí no se conoce el sistema, así que nada se puede esperar de una lectura. Busque el diagrama unifilar o llame a quien cuida la instalación.',
  'verify.stop.isolated':
    '{system}: no mida en un sistema aislado que nadie ha confirmado. Llame a quien lo cuida; en atención de la salud, al establecimiento.',
  'verify.stop.dc-volts':
    '{system}: lea primero la tensión en la placa de datos; las cadenas en serie se suman. Si no se puede leer, llame al instalador.',
  'verify.stop.no-rated-meter':
    'No se ha anotado un medidor con categoría y tensión declaradas: sin él no se pide ninguna lectura.',
  'verify.stop.category':
    'El medidor es CAT {category}; en {place} hace falta al menos CAT {needed}. Consiga uno así, o llame a una persona calificada que lo tenga.',
  'verify.stop.accuracy':
    'Este medidor es más burdo que {percent} % + {volts} V: no distingue una alimentación de otra. Use uno más exacto.',
  'verify.stop.rated-volts':
    'El medidor está clasificado para {rated} V; aquí se esperan hasta {most} V. Consiga uno clasificado para eso, o llame a una persona calificada que lo tenga.',
  'verify.notice.no-low-impedance':
    'Este medidor no tiene baja impedancia: no distingue una tensión acoplada de una real, así que con él ninguna línea puede quedar medida.',
  'verify.notice.two-systems':
    'Dos sistemas pueden compartir este gabinete: abrir un medio de desconexión deja energizado el otro, y las lecturas entre los dos no tienen valor fijo.',
  'verify.notice.floating':
    'En este sistema nada está unido a tierra: una lectura a tierra puede vagar, y 0 V a tierra puede ser una falla a tierra con la línea plenamente energizada.',
  'verify.band.ansi': 'ANSI C84.1',
  'verify.band.iec': 'IEC 60038',
  'verify.band.uk': 'BS 7671, apéndice 2',
  'verify.band.uk-old': 'práctica del Reino Unido antes de 1995',
  'verify.band.csa': 'CSA C235',
  'verify.band.own': 'margen propio',
  'verify.band.service': 'en la acometida',
  'verify.band.utilization': 'donde se usa',
  'verify.band.one-range': '{rule}, {place}',
  'verify.band.two-ranges': '{rule} rango {range}, {place}',
  'verify.band.floating': 'flotante, cerca de la mitad',
  'verify.band.load-drop': 'caída por carga de hasta {percent} %',
  'verify.band.two-systems': 'dos sistemas, ángulo desconocido',
  'verify.band.bonded': 'unido: práctica común, sin fuente',
  'verify.band.open': 'abierto: práctica común, sin fuente',
  'verify.band.rotation': 'orden de las fases',

  'verify.place.outlet': 'un tomacorriente o equipo enchufado',
  'verify.place.panel': 'un tablero o la instalación fija',
  'verify.place.service': 'la acometida o el origen de la alimentación',

  'verify.step.qualified':
    'Aquí solo mide una persona calificada: capacitada para este equipo, esta tensión y este instrumento.',
  'verify.step.local-rules':
    'Los códigos locales y las reglas del empleador y del sitio van antes que todo lo que diga esta herramienta.',
  'verify.step.off-first':
    'Mida con la alimentación conectada solo donde no se puede hacer sin ella, o donde desconectar agrega peligro. Si no, use el plan con ausencia de tensión probada.',
  'verify.step.gear':
    'Mire primero: nada de agua, daño, olor a quemado ni partes sueltas. En la duda, deténgase y llame.',
  'verify.step.rated-meter':
    'Medidor y puntas tienen la categoría del lugar (tablero: al menos CAT III, acometida: CAT IV) y una tensión no menor que la más alta esperada.',
  'verify.step.leads': 'Puntas, sondas y fusibles están enteros; bornes y función están puestos para tensión.',
  'verify.step.ppe':
    'Trate todo como energizado hasta que se pruebe lo contrario, y lleve el equipo de protección para eso durante toda la prueba.',
  'verify.step.known-source': 'Pruebe el medidor en una fuente energizada conocida, en la función que se va a usar.',
  'verify.step.find-sources':
    'Encuentre cada fuente que pueda alimentar este lugar: planos, etiquetas, generadores, solar, realimentación.',
  'verify.step.open-each': 'Quite la carga como es debido y luego abra el medio de desconexión de cada fuente.',
  'verify.step.see-blades': 'Donde se pueda ver, vea que las cuchillas estén abiertas o que la unidad esté extraída.',
  'verify.step.stored': 'Descargue la energía eléctrica almacenada: capacitores, variadores, baterías.',
  'verify.step.stored-other': 'Bloquee o libere otra energía almacenada: resortes, presión, peso.',
  'verify.step.lockout': 'Bloquee y etiquete cada medio de desconexión según el procedimiento del sitio.',
  'verify.step.prove-before':
    'Prueba vivo-muerto-vivo, primera parte: el probador muestra una fuente energizada conocida.',
  'verify.step.absence':
    'En cada lugar de trabajo, pruebe cada conductor contra cada otro y contra tierra con un instrumento de contacto clasificado.',
  'verify.step.prove-after':
    'Prueba vivo-muerto-vivo, última parte: el probador muestra otra vez la fuente energizada conocida.',
  'verify.step.grounding': 'Donde pueda inducirse o volver tensión, coloque puestas a tierra temporales de protección.',
  'verify.step.no-proximity': 'Los probadores de proximidad y de solenoide no demuestran ausencia de tensión.',
  'verify.step.ghost':
    'Un medidor de alta impedancia puede mostrar casi toda la tensión de línea en un conductor que no está conectado a nada. La baja impedancia lo distingue; en algunos circuitos puede disparar una protección.',
  'verify.step.back-feed':
    'Una tensión que se mantiene bajo carga es real o realimentada: encuentre su fuente antes de seguir.',
};
