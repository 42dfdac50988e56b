/// <reference lib="webworker" />
import { Problem } from '../flow';
import { decodePhoto } from '../photo/decode.browser';
import type { Segmenter } from '../vision';
import type { Answers, Call, Reply, Request } from './protocol';
import { ribbonPicture } from './ribbon-picture';
import { openSegmenter } from './segmenter.browser';
import { Session } from './session';

declare const self: DedicatedWorkerGlobalScope;

let session: Session | undefined;
let segmenter: Promise<Segmenter> | undefined;

const reply = (message: Reply, transfer: Transferable[] = []): void => self.postMessage(message, transfer);

self.onmessage = (event: MessageEvent<Request>) => {
  void handle(event.data);
};

async function handle({ id, call }: Request): Promise<void> {
  try {
    const answer = await answerTo(id, call);
    reply({ id, answer }, call.do === 'ribbon' ? [(answer as Answers['ribbon']).data.buffer] : []);
  } catch (error) {
    const problem = error instanceof Problem ? error : new Problem('engine failed', undefined, error);
    if (!(error instanceof Problem)) console.error(error);
    reply({
      id,
      problem: problem.kind,
      ...(problem.what.values ? { values: problem.what.values } : {}),
    });
  }
}

async function answerTo(id: number, call: Call): Promise<Answers[keyof Answers]> {
  if (call.do === 'open') {
    session = undefined;
    segmenter ??= openSegmenter();
    const chosen = await segmenter;
    session = await Session.open(() => decodePhoto(call.bytes, call.name), chosen, {
      ...(call.knowledge ? { knowledge: call.knowledge } : {}),
      onStage: (stage, share) => reply({ id, stage, share }),
    });
    return session.findings;
  }
  if (!session) throw new Problem('engine failed');
  switch (call.do) {
    case 'trace':
      return session.trace(call.at);
    case 'traceStroke':
      return session.traceStroke(call.stroke);
    case 'reread':
      return session.reread(call.references, call.conductors);
    case 'ribbon':
      return ribbonPicture(session.ribbon(call.conductor));
  }
}
