import { type ColorName, type Message, message, type Role, type SiteKnowledge } from '../../flow';
import { presences } from '../infer/candidates';
import { circuitRoles } from '../infer/members';
import type { Posterior } from '../infer/posterior';
import { SPACE_TRUST } from '../model/priors';
import { roleOfTag, tagOf, tagRatio } from '../model/tag';
import { panelKindOf, panelPole } from '../panel/pole';
import { commonness, habitColors } from './habits';
import { colorListMessage, systemKey } from './list';
import { type Seen, SURE } from './read';

interface Fact {
  readonly message: Message;
  /** How far it moved the log odds of the role. */
  readonly weight: number;
}

const MOST = 3;
const logit = (p: number): number => {
  const q = Math.min(1 - 1e-6, Math.max(1e-6, p));
  return Math.log(q / (1 - q));
};

/**
 * The facts that moved a conductor's role most, strongest first. Weights are changes of log odds: the conductor's
 * own look against what the rest of the picture says (exact), the rest of the picture against the prior, and what
 * the user said (approximate).
 */
export function because(
  i: number,
  seen: Seen,
  all: readonly Seen[],
  found: Posterior,
  knowledge: SiteKnowledge,
  open: ReadonlySet<Role>,
): Message[] {
  const { role, system, conductor } = seen;
  if (role === 'unassigned') return [message('identify.because.nothing-known', { color: seen.color })];
  const before = roleShare(found, found.rest, i, role);
  const facts: Fact[] = [
    { message: lookFact(seen), weight: Math.abs(logit(seen.roleProbability) - logit(before)) },
    {
      message: companyFact(seen, all, knowledge),
      weight: Math.abs(logit(before) - logit(priorShare(role, knowledge))),
    },
  ];
  const space = knowledge.spaces[conductor.id];
  const kind = panelKindOf(system);
  if (space !== undefined && space >= 1 && Number.isInteger(space) && kind) {
    const expected = panelPole(space, kind, knowledge.board);
    facts.push({
      message: message(
        `identify.because.space${knowledge.board ? '-said' : ''}${expected === role ? '' : '-against'}`,
        {
          space,
          role: expected,
        },
      ),
      weight: logit(SPACE_TRUST) - logit(1 / 3),
    });
  }
  const tag = tagOf(conductor.id, knowledge);
  if (tag !== undefined) {
    const named = roleOfTag(tag, system);
    const code = `identify.because.tag-${named === role ? 'reads' : named === null ? 'unknown' : 'against'}`;
    facts.push({
      message: message(code, { tag, role: named ?? role }),
      weight: Math.abs(Math.log(tagRatio(tag, role, system))),
    });
  }
  if (knowledge.systems.includes(system)) {
    const prior = presences({ ...knowledge, systems: [] }).filter((p) => p.systems.includes(system));
    const share = prior.reduce((sum, p) => sum + p.prior, 0);
    facts.push({ message: message('identify.because.said', { system: systemKey(system) }), weight: -logit(share) });
  }
  if (knowledge.legend.some((e) => e.system === system && e.role === role && e.color === seen.color)) {
    facts.push({ message: message('identify.because.legend', { color: seen.color, role }), weight: 4 });
  }
  const group = knowledge.groups.find((g) => g.conductors.includes(conductor.id) && g.conductors.length > 1);
  if (group) {
    facts.push({
      message: message(`identify.because.group-${group.kind}`, { count: group.conductors.length - 1 }),
      weight: 1,
    });
  }
  const other = [...open].filter((r) => r !== role).sort()[0];
  if (other !== undefined && space === undefined && !group && tag === undefined) {
    // It moved the role by keeping it down.
    facts.push({ message: message('identify.because.open', { color: seen.color, other }), weight: 1.5 });
  }
  return facts
    .map((fact, order) => ({ fact, order }))
    .sort((a, b) => b.fact.weight - a.fact.weight || a.order - b.order)
    .slice(0, MOST)
    .map(({ fact }) => fact.message);
}

function lookFact(seen: Seen): Message {
  const { conductor, color, stripe, tape, role, system } = seen;
  if (tape) return message('identify.because.tape', { color, tape });
  if (conductor.covering === 'bare' && conductor.userWord === undefined) return message('identify.because.bare');
  if (stripe) return message('identify.because.stripe', { color, stripe });
  const said = conductor.userWord;
  if (said && said.name !== 'not decided') return message('identify.because.word', { color, by: said.by });
  const percent = Math.round(100 * seen.sure);
  const habit = habitColors(system, role).has(color);
  return message(habit ? 'identify.because.color' : 'identify.because.color-odd', {
    color,
    percent,
    role,
    system: systemKey(system),
  });
}

/** Other colors in the picture that speak for the same system, those that the fewest systems have first. */
function companyFact(seen: Seen, all: readonly Seen[], knowledge: SiteKnowledge): Message {
  const habit = habitColors(seen.system);
  const common = (color: ColorName): number => commonness(knowledge.jurisdiction, color);
  const colors = [
    ...new Set(
      all
        .filter((o) => o !== seen && o.sure >= SURE && o.color !== seen.color && habit.has(o.color))
        .map((o) => o.color),
    ),
  ].sort((a, b) => common(a) - common(b) || (a < b ? -1 : 1));
  return colors.length === 0
    ? message('identify.because.alone')
    : colorListMessage('identify.because.company', colors, { system: systemKey(seen.system) });
}

function roleShare(found: Posterior, table: Float64Array, i: number, role: Role): number {
  const width = found.columns.length;
  let sum = 0;
  found.columns.forEach((column, c) => {
    if (column.role === role) sum += table[i * width + c]!;
  });
  return sum;
}

/** Share of a role before anything is seen. */
function priorShare(role: Role, knowledge: SiteKnowledge): number {
  let sum = 0;
  for (const { systems, prior } of presences(knowledge)) {
    for (const system of systems) {
      const roles = circuitRoles(system);
      if (roles.includes(role)) sum += prior / systems.length / (roles.length + 1);
    }
  }
  return role === 'equipment grounding conductor' ? 0.15 : Math.max(0.01, sum);
}
