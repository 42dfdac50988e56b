import { type ThinkRequest, type Thoughts, think } from './think';

export interface ThinkCall {
  readonly id: number;
  readonly request: ThinkRequest;
}

export interface ThinkReply {
  readonly id: number;
  /** Absent when thinking failed. */
  readonly thoughts?: Thoughts;
  readonly fault?: string;
}

self.onmessage = (event: MessageEvent<ThinkCall>) => {
  const { id, request } = event.data;
  const reply = (): ThinkReply => {
    try {
      return { id, thoughts: think(request) };
    } catch (error) {
      return { id, fault: String(error) };
    }
  };
  self.postMessage(reply());
};
