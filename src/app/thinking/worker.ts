import type { MeterPlan } from '../../flow';
import { holdLife } from '../../inspect/life.browser';
import { type Conclusion, conclude, firstPlan, plan, sameAgain, type ThinkRequest } from './think';

export interface ThinkCall {
  readonly id: number;
  readonly about: 'conclusion' | 'first plan' | 'plan';
  readonly request: ThinkRequest;
}

export type ThinkReply =
  /** Name of the lock that the worker holds as long as it lives; told once, at its start. */
  | { readonly life: string }
  | { readonly id: number; readonly answer: Conclusion | MeterPlan }
  | { readonly id: number; readonly fault: string };

const THOUGHTS = { conclusion: conclude, 'first plan': firstPlan, plan } as const;
const known = sameAgain();

holdLife((life) => self.postMessage({ life } satisfies ThinkReply));

self.onmessage = (event: MessageEvent<ThinkCall>) => {
  const { id, about } = event.data;
  const request = known(event.data.request);
  let reply: ThinkReply;
  try {
    reply = { id, answer: THOUGHTS[about](request) };
  } catch (error) {
    reply = { id, fault: String(error) };
  }
  self.postMessage(reply);
};
