import type { IDENTIFY_WORDS } from '../en/identify';
import type { Translation } from '../translation';

export const IDENTIFY_WORDS_ES: Translation<typeof IDENTIFY_WORDS> = {
  'identify.system.us-120-240-1ph': '120/240 V monofásico, tres hilos',
  'identify.system.us-208y120': '208Y/120 V trifásico, cuatro hilos',
  'identify.system.us-480y277': '480Y/277 V trifásico, cuatro hilos',
  'identify.system.us-240-120-high-leg': '240/120 V delta con fase alta',
  'identify.system.us-240-delta': '240 V delta de tres hilos, no puesta a tierra',
  'identify.system.us-480-delta': '480 V delta de tres hilos, no puesta a tierra',
  'identify.system.us-240-corner': '240 V delta con una esquina puesta a tierra',
  'identify.system.us-480-corner': '480 V delta con una esquina puesta a tierra',
  'identify.system.us-isolated-power': 'sistema aislado (atención de la salud)',
  'identify.system.us-dc': 'alimentación de CC',
  'identify.system.us-pv-dc': 'circuito fotovoltaico de CC',
  'identify.system.us-switch-legs': 'retornos de interruptor y viajeros',
  'identify.system.us-isolated-ground': 'tierras aisladas de tomacorrientes',
  'identify.system.us-control': 'cableado de control',
  'identify.system.us-fire-alarm': 'cableado de alarma de incendio',
  'identify.system.us-intrinsically-safe': 'circuito intrínsecamente seguro',
  'identify.system.ca-120-240-1ph': '120/240 V monofásico, tres hilos (Canadá)',
  'identify.system.ca-208y120': '208Y/120 V trifásico, cuatro hilos (Canadá)',
  'identify.system.ca-600y347': '600Y/347 V trifásico, cuatro hilos (Canadá)',
  'identify.system.ca-240-120-high-leg': '240/120 V delta con fase alta (Canadá)',
  'identify.system.ca-isolated': 'sistema aislado (Canadá)',
  'identify.system.ca-switch-legs': 'retornos de interruptor y viajeros (Canadá)',
  'identify.system.iec-230-400': '230/400 V trifásico, cuatro hilos',
  'identify.system.iec-230-1ph': '230 V monofásico',
  'identify.system.iec-dc': 'alimentación de CC (colores IEC)',
  'identify.system.iec-machine': 'cableado de control de máquinas (colores EN 60204-1)',
  'identify.system.uk-230-400': '230/400 V trifásico, colores armonizados (Reino Unido)',
  'identify.system.uk-230-1ph': '230 V monofásico, colores armonizados (Reino Unido)',
  'identify.system.uk-pre-2004-3ph': '240/415 V trifásico, colores anteriores a 2004 (Reino Unido)',
  'identify.system.uk-pre-2004-1ph': '240 V monofásico, colores anteriores a 2004 (Reino Unido)',
  'identify.system.uk-dc': 'alimentación de CC, colores desde 2022 (Reino Unido)',
  'identify.system.uk-dc-pre-2022': 'alimentación de CC, colores anteriores a 2022 (Reino Unido)',
  'identify.system.au-traditional-3ph': '230/400 V trifásico, colores tradicionales (AU/NZ)',
  'identify.system.au-harmonized-3ph': '230/400 V trifásico, colores armonizados (AU/NZ)',
  'identify.system.cn-220-380': '220/380 V trifásico, cuatro hilos (China)',
  'identify.system.in-230-400': '230/400 V trifásico, cuatro hilos (India)',
  'identify.system.jp-100-200-1ph': '100/200 V monofásico, tres hilos (Japón)',
  'identify.system.jp-200-3ph': '200 V trifásico, tres hilos, una fase puesta a tierra (Japón)',
  'identify.system.jp-3ph4w': 'trifásico de cuatro hilos (Japón)',
  'identify.system.jp-dc': 'alimentación de CC (Japón)',
  'identify.system.unknown': 'sin sistema nombrado',

  'identify.role.phase-A': 'fase A',
  'identify.role.phase-B': 'fase B',
  'identify.role.phase-C': 'fase C',
  'identify.role.line-1': 'línea 1',
  'identify.role.line-2': 'línea 2',
  'identify.role.high-leg': 'fase alta',
  'identify.role.grounded-conductor': 'conductor puesto a tierra (neutro)',
  'identify.role.equipment-grounding-conductor': 'conductor de puesta a tierra de equipos',
  'identify.role.isolated-ground': 'conductor de tierra aislada',
  'identify.role.isolated-conductor-1': 'conductor aislado 1',
  'identify.role.isolated-conductor-2': 'conductor aislado 2',
  'identify.role.isolated-conductor-3': 'conductor aislado 3',
  'identify.role.switch-leg': 'retorno de interruptor',
  'identify.role.traveler': 'viajero',
  'identify.role.control': 'control',
  'identify.role.positive': 'positivo',
  'identify.role.negative': 'negativo',
  'identify.role.unassigned': 'sin asignar',

  'identify.because.color': 'Se lee {color} ({percent} %), lo habitual para {role} de {system}.',
  'identify.because.color-odd': 'Se lee {color} ({percent} %), que no es lo habitual para {role} de {system}.',
  'identify.because.stripe': 'Es {color} con franja {stripe}.',
  'identify.because.tape': 'Lleva cinta {tape} sobre aislamiento {color}; la cinta vale más que el aislamiento.',
  'identify.because.bare': 'Es metal desnudo.',
  'identify.because.word': '{by} dice que es {color}.',
  'identify.because.company-1': 'También está {a}, como en {system}.',
  'identify.because.company-2': 'También están {a} y {b}, como en {system}.',
  'identify.because.company-3': 'También están {a}, {b} y {c}, como en {system}.',
  'identify.because.alone': 'Ningún otro color leído con seguridad en la foto habla a favor de este sistema.',
  'identify.because.space': 'El espacio de polo {space} es {role} en la numeración usual.',
  'identify.because.space-against':
    'El espacio de polo {space} sería {role} en la numeración usual, lo que habla en contra.',
  'identify.because.space-said': 'El espacio de polo {space} es {role} según la numeración que usted dijo.',
  'identify.because.space-said-against':
    'El espacio de polo {space} sería {role} según la numeración que usted dijo, lo que habla en contra.',
  'identify.because.tag-reads': 'Su rótulo dice {tag}, que aquí es {role}. Los rótulos a veces se equivocan.',
  'identify.because.tag-against': 'Su rótulo dice {tag}, que sería {role} y habla en contra.',
  'identify.because.tag-unknown': 'Su rótulo dice {tag}, que no nombra nada en este sistema.',
  'identify.because.said': 'La tensión indicada que usted anotó es {system}.',
  'identify.because.legend': 'La leyenda de este sitio da {color} a {role}.',
  'identify.because.group-circuit': 'Comparte un circuito con {count} más, y cada uno tiene su propia función.',
  'identify.because.group-cable': 'Comparte un cable con {count} más, y cada uno tiene su propia función.',
  'identify.because.group-tag': 'Comparte una etiqueta con {count} más, y cada uno tiene su propia función.',
  'identify.because.group-breaker':
    'Llega a un interruptor automático con {count} más, así que no está puesto a tierra.',
  'identify.because.open': 'El color solo no decide: {color} puede ser aquí igualmente {other}.',
  'identify.because.nothing-known': 'Nada de lo conocido aquí concuerda con {color} en esta compañía.',

  'identify.eliminated.present-1': 'No es {system}: está presente {a}.',
  'identify.eliminated.present-2': 'No es {system}: están presentes {a} y {b}.',
  'identify.eliminated.present-3': 'No es {system}: están presentes {a}, {b} y {c}.',
  'identify.eliminated.missing-1': 'Poco probable {system}: no se ve {a}.',
  'identify.eliminated.missing-2': 'Poco probable {system}: no se ven ni {a} ni {b}.',
  'identify.eliminated.missing-3': 'Poco probable {system}: no se ven ni {a}, ni {b}, ni {c}.',
  'identify.eliminated.less': 'Poco probable {system}: otros sistemas explican mejor la foto.',

  'identify.finding.white-as-hot':
    'Un conductor {color} está donde corresponde uno no puesto a tierra, y no se ve que esté remarcado. Mídalo; no lo tome por neutro.',
  'identify.finding.white-remarked':
    'Remarcado con {tape} sobre {color}: trátelo como no puesto a tierra hasta medirlo, y vea que la marca dé toda la vuelta.',
  'identify.finding.green-as-other':
    'Un conductor {color} parece usarse para algo distinto de la puesta a tierra de equipos. Trátelo como energizado hasta medirlo.',
  'identify.finding.tapes-disagree': 'Dos cintas de colores distintos en un conductor. Averigüe cuál vale.',
  'identify.finding.tape-not-encircling':
    'La cinta {color} deja aislamiento al descubierto a su lado en la cara que muestra la foto: la marca debe dar toda la vuelta. Puede ser una etiqueta; aquí pesa menos.',
  'identify.finding.tape-must-encircle':
    'La cinta de fase debe dar toda la vuelta al conductor; una foto muestra un solo lado. Mire el otro.',
  'identify.finding.color-undecided':
    'Conductores cuyo color esta foto no decide: {count}. Toque una referencia, agregue luz o mire el otro extremo.',
  'identify.finding.systems-alike':
    'Parece haber dos sistemas aquí ({a}; {b}) y nada distingue sus conductores no puestos a tierra.',
  'identify.finding.neutrals-alike':
    'Parece haber dos sistemas aquí ({a}; {b}) y sus conductores puestos a tierra se ven iguales. Deben ser distintos.',
  'identify.finding.neutral-of-other-system':
    'Este circuito de {system} tiene un conductor puesto a tierra {color}, como el otro sistema presente. Puede pertenecer al otro.',
  'identify.finding.high-leg-not-orange':
    'La fase alta debe estar marcada en naranja o por otro medio eficaz; este se lee {color}. Está a unos 208 V del neutro.',
  'identify.finding.high-leg-not-on-its-phase':
    'El espacio {space} ({expected}) tiene {color}: la fase alta no está donde la pone el patrón de polos. Mida al neutro antes de conectar ahí una carga de 120 V.',
  'identify.finding.load-on-high-leg':
    'El espacio {space} es la fase alta: un circuito con neutro ahí recibe unos 208 V en lugar de 120 V.',
  'identify.finding.isolated-no-stripe':
    'Los conductores de un sistema aislado necesitan una franja de color distintivo en todo su largo; no se ve ninguna en este {color}.',
  'identify.finding.isolated-forbidden-stripe':
    'La franja de un conductor de sistema aislado no debe ser blanca, verde ni gris; esta es {stripe}.',
  'identify.finding.old-and-new':
    'Aquí se juntan colores anteriores y posteriores a 2004: azul puede ser neutro o fase, negro fase o neutro. El color no los distingue; mida.',
  'identify.finding.no-order': 'Marrón, negro y gris no llevan por sí mismos orden de fases. Mida la rotación.',
  'identify.finding.phase-by-tag':
    'Aquí los colores parecen indicar el sistema pero no la fase. Guíese por las etiquetas numeradas, y mida.',
  'identify.finding.no-ground-seen':
    'No se ve conductor de puesta a tierra de equipos. Puede ser la canalización; encuéntrelo antes de confiar en una lectura a tierra.',
  'identify.finding.no-neutral-seen': 'No se ve conductor puesto a tierra, aunque {system} lo tiene.',
  'identify.finding.tag-against-space':
    'El rótulo dice {tag}, pero el conductor llega al espacio {space}, que es {role}. Decide el polo; mida.',
  'identify.finding.tag-against-color':
    'El rótulo dice {tag}, pero aquí {color} es el color de {role}. Uno de los dos está equivocado: mida.',
  'identify.finding.tag-repeated': 'Dos conductores de un mismo circuito o interruptor llevan el rótulo {tag}.',
  'identify.finding.panel-swapped':
    'Los conductores de los espacios {a} y {b} llevan uno el color del otro: las fases pueden estar cambiadas.',
  'identify.finding.panel-repeated':
    'Dos polos de un interruptor automático (espacios {a}, {b}) tienen conductores del mismo color de fase.',
  'identify.finding.panel-rolled':
    'Todos los colores de fase están corridos respecto del patrón usual de polos. El tablero puede empezar en otra fase o alimentarse por abajo; lea su placa.',
  'identify.finding.panel-differs': 'El espacio {space} es {expected} en el patrón usual, pero tiene {color}.',
  'identify.finding.neutral-same-phase':
    'Un neutro es compartido por los espacios {a} y {b}, que están en la misma fase: su corriente se suma en lugar de cancelarse.',
  'identify.finding.sets-differ':
    'El número de conductores cambia de fase a fase ({counts}). Los juegos en paralelo deben coincidir.',
  'identify.finding.sets-worn-differently':
    'Juegos que usted agrupó llevan colores distintos, aunque aquí solo se espera {system}. Los juegos en paralelo deben ser iguales; si no lo son, pregunte si hay una segunda alimentación.',
  'identify.finding.unknown-system': 'El sistema "{id}" no se conoce aquí y se dejó fuera.',
  'identify.finding.named-system-misfits':
    'Los colores concuerdan mucho mejor con {system} que con la tensión indicada que usted anotó. Revise la placa de datos, y mida antes de confiar en cualquiera de las dos.',
  'identify.finding.legend-two-colors': 'La leyenda da a {role} dos colores: {a} y {b}.',
  'identify.finding.legend-two-roles': 'La leyenda da {color} tanto a {a} como a {b} de un mismo sistema.',
  'identify.finding.legend-systems-alike': 'La leyenda da {color} a conductores no puestos a tierra de {a} y de {b}.',
  'identify.finding.legend-neutrals-alike':
    'La leyenda da el mismo aspecto ({color}) a los conductores puestos a tierra de {a} y de {b}. Deben ser distintos donde se encuentran.',
  'identify.finding.legend-green': 'La leyenda da verde a {role}; el verde es solo para la puesta a tierra de equipos.',
  'identify.finding.legend-white':
    'La leyenda da {color} a {role}; blanco y gris son para conductores puestos a tierra.',
  'identify.finding.legend-high-leg': 'La leyenda da {color} a la fase alta, que debe ser naranja.',
  'identify.finding.legend-isolated': 'La leyenda no da franja a {role}; un sistema aislado necesita una distintiva.',

  'identify.legend.not-a-list': 'Una leyenda es una lista de líneas: sistema, función, color, y franja donde la haya.',
  'identify.legend.too-long': 'Una leyenda puede tener 200 líneas.',
  'identify.legend.malformed': 'Esta línea de la leyenda no está completa, o tiene algo que no corresponde.',
  'identify.legend.unknown-system': 'Esta línea nombra un sistema que aquí no se conoce.',
  'identify.legend.unknown-role': 'Esta línea nombra una función que aquí no se conoce.',
  'identify.legend.unknown-color': 'Esta línea nombra un color que aquí no se conoce.',
  'identify.legend.role-not-in-system': 'El sistema de esta línea no tiene esa función.',
  'identify.legend.stripe-of-same-color': 'Una franja necesita un color distinto del aislamiento.',
};
