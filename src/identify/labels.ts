import { type Message, message, type Role, type SystemId } from '../flow';
import { SYSTEMS } from './data/systems';

/** Name of a system for the screen; an unknown id stands for "no system named". */
export const systemName = (id: SystemId): Message => SYSTEMS[id]?.name ?? message('identify.system.unknown');

/** Name of a role for the screen. */
export const roleLabel = (role: Role): Message => message(`identify.role.${role.replaceAll(' ', '-')}`);
