import type { MeterPlan } from '../../flow';
import { type Conclusion, conclude, firstPlan, plan, sameAgain, type ThinkRequest } from './think';

export interface ThinkCall {
  readonly id: number;
  readonly about: 'conclusion' | 'first plan' | 'plan';
  readonly request: ThinkRequest;
}

export type ThinkReply =
  | { readonly id: number; readonly answer: Conclusion | MeterPlan }
  | { readonly id: number; readonly fault: string };

const THOUGHTS = { conclusion: conclude, 'first plan': firstPlan, plan } as const;
const known = sameAgain();

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
