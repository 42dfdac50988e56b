import type { MeterPlan } from '../../flow';
import { type Conclusion, conclude, plan, type ThinkRequest } from './think';

export interface ThinkCall {
  readonly id: number;
  readonly about: 'conclusion' | 'plan';
  readonly request: ThinkRequest;
}

export type ThinkReply =
  | { readonly id: number; readonly answer: Conclusion | MeterPlan }
  | { readonly id: number; readonly fault: string };

self.onmessage = (event: MessageEvent<ThinkCall>) => {
  const { id, about, request } = event.data;
  let reply: ThinkReply;
  try {
    reply = { id, answer: about === 'plan' ? plan(request) : conclude(request) };
  } catch (error) {
    reply = { id, fault: String(error) };
  }
  self.postMessage(reply);
};
