import type { ColorName, Role, SystemId } from '../../flow';
import { say } from '../../words';

export const colorWord = (name: ColorName): string => say({ code: `color.name.${name}` });

export const roleWord = (role: Role | 'ground'): string => say({ code: `identify.role.${role.replaceAll(' ', '-')}` });

export const systemWord = (system: SystemId): string => say({ code: `identify.system.${system}` });
