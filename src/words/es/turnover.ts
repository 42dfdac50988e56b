import type { TURNOVER_WORDS } from '../en/turnover';
import type { Translation } from '../translation';

export const TURNOVER_WORDS_ES: Translation<typeof TURNOVER_WORDS> = {
  'record.schedule.binary': 'no es texto',
  'record.schedule.quote': 'se abre una comilla que no se cierra, o está donde no puede estar',
  'record.schedule.empty': 'no tiene líneas debajo del encabezado',
  'record.schedule.no-panel': 'No se nombra ningún tablero.',
  'record.schedule.space-twice': 'El espacio {space} de {panel} también lo ocupa la fila {row}.',
  'record.schedule.unclear-panel': 'El tablero "{text}" no está claro.',
  'record.schedule.unclear-space': 'El espacio "{text}" no está claro. Escriba 7, o 7,9,11.',
  'record.schedule.unclear-poles': 'Los polos "{text}" no concuerdan con los espacios. Escriba 1, 2 o 3.',
  'record.schedule.unclear-system': 'El sistema "{text}" no se conoce aquí. Escriba la tensión, como 208Y/120.',
  'record.schedule.unclear-phase': 'La fase "{text}" no está clara. Escriba una por polo, como A/B/C.',
  'record.schedule.unclear-circuit': 'El circuito "{text}" no está claro.',
  'record.schedule.unclear-load': 'La carga "{text}" no está clara.',
  'record.schedule.unclear-color':
    'El color "{text}" no está claro. Escriba uno por polo, como BK/RD/BU, o uno para todos.',
  'record.schedule.unclear-size': 'El calibre "{text}" no está claro.',
  'record.schedule.unclear-neutral': 'El neutro "{text}" no es un color. Escriba un color, sí, o déjelo vacío.',
  'record.schedule.unclear-ground': 'La tierra "{text}" no es un color. Escriba un color, sí, o déjela vacía.',
  'record.schedule.unclear-torque': 'El par "{text}" no tiene unidad. Escriba N·m, lbf·in o lbf·ft.',
  'record.schedule.unclear-photo': 'La foto "{text}" no está clara.',
};
