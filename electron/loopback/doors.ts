/** The addresses of the two doors and of the desk, and what each takes from a page. */
import type { ActRequest, Answer, AttachmentSent, Deed, HostRequest, QuestionName } from '../../db/api.ts';
import type { Desk } from '../desk.ts';
import { BodyRefused } from './body.ts';

type Body = Record<string, unknown>;

/** Shapes are checked here only as far as this file relies on them: the store and the desk refuse the rest in words. */
export const DOORS: ReadonlyMap<string, (desk: Desk, body: Body) => Promise<Answer<unknown>>> = new Map([
  ['/api/ask', ask],
  ['/api/act', (desk: Desk, { request }: Body) => desk.act(actRequest(request))],
  ['/api/host', (desk: Desk, { command, name }: Body) => desk.host({ command, name } as HostRequest)],
]);

function ask(desk: Desk, { question, args }: Body): Promise<Answer<unknown>> {
  if (typeof question !== 'string') throw new BodyRefused(400, 'A question has a name.');
  return desk.ask(question as QuestionName, (args ?? {}) as never);
}

/** How identity was shown is for the host to say: a page cannot claim to be the terminal. */
function actRequest(request: unknown): ActRequest {
  if (request === null || typeof request !== 'object') throw new BodyRefused(400, 'An act has a request.');
  const { by, pin, via, deeds, attachments } = request as Body;
  if (!Array.isArray(deeds)) throw new BodyRefused(400, 'An act is a list of deeds.');
  if (by !== null && typeof by !== 'string') throw new BodyRefused(400, 'An act says who acts.');
  if (pin !== undefined && typeof pin !== 'string') throw new BodyRefused(400, 'A PIN is text.');
  if (attachments !== undefined && !Array.isArray(attachments))
    throw new BodyRefused(400, 'Attachments are a list.');
  const shown = via === 'import' ? 'import' : pin === undefined ? 'claimed' : 'PIN';
  return {
    by,
    ...(pin === undefined ? {} : { pin }),
    via: shown,
    deeds: deeds as Deed[],
    ...(attachments === undefined ? {} : { attachments: attachments as AttachmentSent[] }),
  };
}
