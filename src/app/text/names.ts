import type { ColorName, InsulationColor, Role, SystemId } from '../../flow';
import { say } from './say';
import { t } from './t';

export const colorWord = (name: ColorName): string => say({ code: `color.name.${name}` });

/** The names that a reading leaves open: "brown or red". */
export const setWord = ({ set }: Pick<InsulationColor, 'set'>): string =>
  set.map(colorWord).join(t('screen.color.or-between'));

export const roleWord = (role: Role | 'ground'): string =>
  role === 'ground' ? t('screen.point.ground') : say({ code: `identify.role.${role.replaceAll(' ', '-')}` });

export const systemWord = (system: SystemId): string => say({ code: `identify.system.${system}` });
