/** What the simulated browser lacks, and a host of the test's own behind the bridge. */

import { MantineProvider } from '@mantine/core';
import { Notifications } from '@mantine/notifications';
import { QueryClientProvider } from '@tanstack/react-query';
import { cleanup, render } from '@testing-library/react';
import type { ReactNode } from 'react';
import { afterEach } from 'vitest';
import type { ActAnswer, ActRequest, Answer, MemberLine, QuestionName, Questions } from '../../db/api.ts';
import { UNKNOWN_PROFILE } from '../../domain/rulebook/force.ts';
import { FAMILIES, SHIPPED_REQUIREMENTS } from '../../domain/rulebook/index.ts';
import { createClient } from '../../renderer/api/client.ts';
import { theme } from '../../renderer/app/theme.ts';
import { ActingProvider } from '../../renderer/parts/acting/acting.tsx';
import { KeysProvider } from '../../renderer/parts/keys/keys.tsx';
import { offeredLine } from '../../renderer/screens/rulebook/offeredLine.ts';

window.matchMedia = query =>
  ({
    matches: false,
    media: query,
    addEventListener() {},
    removeEventListener() {},
    addListener() {},
    removeListener() {},
  }) as unknown as MediaQueryList;
window.ResizeObserver = class {
  observe() {}
  unobserve() {}
  disconnect() {}
};
Element.prototype.scrollIntoView = () => {};
Element.prototype.scrollTo = () => {};

afterEach(() => {
  cleanup();
  sessionStorage.clear();
  localStorage.clear();
});

export const TODAY = '2026-11-25';

export const MEMBERS: MemberLine[] = [
  {
    id: 'm1',
    number: '101',
    name: 'Dana Ruiz',
    position: 'company officer',
    grants: [],
    hasPin: false,
    qualifications: [],
  },
  {
    id: 'm2',
    number: '103',
    name: 'Maya Lindqvist',
    position: 'logistics',
    grants: [],
    hasPin: true,
    qualifications: [],
  },
];

type Asked = { [K in QuestionName]?: (args: Questions[K]['takes']) => Questions[K]['gives'] };

const USUAL: Asked = {
  'department.summary': () => ({
    id: 'd1',
    name: 'Larkspur Valley Fire District',
    zone: 'America/Los_Angeles',
    state: null,
    measures: 'US',
    today: TODAY,
    entries: 1,
    things: 1,
    stations: [{ id: 's31', name: 'Station 31' }],
    units: [{ id: 'e31', name: 'Engine 31', station: 'Station 31' }],
    rigs: [],
    agencies: [{ id: 'a1', name: 'Valley Cylinder Test', rin: 'B456' }],
    isDemo: false,
  }),
  'members.list': () => MEMBERS,
  'vocabulary.list': () => ({
    families: [...FAMILIES],
    assignments: ['first line', 'reserve'],
    conditions: [],
    outcomes: ['pass', 'fail', 'not completed'],
  }),
  'rulebook.list': () => ({
    rules: SHIPPED_REQUIREMENTS.map(r => ({ ...offeredLine(r), adopted: true })),
    permits: [],
    policies: [],
    profile: UNKNOWN_PROFILE,
  }),
};

export interface FakeHost {
  acts: ActRequest[];
  asked: { question: string; args: unknown }[];
}

/**
 * Puts a host behind the bridge.
 * @param act what it answers to deeds; without it, every act succeeds
 */
export function fakeHost(
  questions: Asked,
  act: (request: ActRequest) => Answer<ActAnswer> = () => ({
    ok: true,
    value: { batch: 'b1', entries: ['b1'], touched: ['due'] },
  }),
): FakeHost {
  const told: FakeHost = { acts: [], asked: [] };
  const answers = { ...USUAL, ...questions };
  window.baybook = {
    async act(request) {
      told.acts.push(request);
      return act(request);
    },
    async ask(question, args) {
      told.asked.push({ question, args });
      const answer = answers[question];
      if (!answer)
        return {
          ok: false,
          error: { code: 'unknown', message: `Nobody answers ${question}.`, todo: '', field: null },
        };
      return { ok: true, value: (answer as (args: unknown) => never)(args) };
    },
    host: async () => ({ ok: true, value: { folder: '', open: null, files: [] } }),
    onChange: () => () => {},
  };
  return told;
}

/** Draws a part with all that stands around every screen. */
export function draw(part: ReactNode) {
  return render(
    <MantineProvider theme={theme} env="test">
      <QueryClientProvider client={createClient()}>
        <KeysProvider>
          <ActingProvider>{part}</ActingProvider>
          <Notifications />
        </KeysProvider>
      </QueryClientProvider>
    </MantineProvider>,
  );
}
