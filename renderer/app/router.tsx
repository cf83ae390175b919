/** Which address shows which screen. The part after `#` is the address: it works from a server and from a file. */
import {
  createHashHistory,
  createRootRoute,
  createRoute,
  createRouter,
  redirect,
} from '@tanstack/react-router';
import { useMemo } from 'react';
import { Carry } from '../screens/carry/Carry.tsx';
import { Changeover } from '../screens/changeover/Changeover.tsx';
import { Checks } from '../screens/checks/Checks.tsx';
import { OneCheck } from '../screens/checks/OneCheck.tsx';
import { ComingDue } from '../screens/coming-due/ComingDue.tsx';
import { readSearch } from '../screens/coming-due/filter.ts';
import { Department, readDepartmentSearch } from '../screens/department/Department.tsx';
import { Fills } from '../screens/fills/Fills.tsx';
import { ImportScreen } from '../screens/import/ImportScreen.tsx';
import { Incidents } from '../screens/incidents/Incidents.tsx';
import { OneIncident } from '../screens/incidents/OneIncident.tsx';
import { Kits } from '../screens/kits/Kits.tsx';
import { KitTemplate } from '../screens/kits/KitTemplate.tsx';
import { OneKit } from '../screens/kits/OneKit.tsx';
import { Look } from '../screens/look/Look.tsx';
import { Notices } from '../screens/notices/Notices.tsx';
import { OneNotice } from '../screens/notices/OneNotice.tsx';
import { Readiness, readReadinessSearch } from '../screens/readiness/Readiness.tsx';
import { RigPage } from '../screens/rigs/RigPage.tsx';
import { Rigs } from '../screens/rigs/Rigs.tsx';
import { readRigSearch } from '../screens/rigs/search.ts';
import { WalkRound } from '../screens/rigs/WalkRound.tsx';
import { RuleBook, readRuleSearch } from '../screens/rulebook/RuleBook.tsx';
import { Supply } from '../screens/supply/Supply.tsx';
import { TagOuts } from '../screens/tagouts/TagOuts.tsx';
import { ThingPage } from '../screens/thing/ThingPage.tsx';
import { Gate } from '../shell/Gate.tsx';

const root = createRootRoute({ component: Gate });

/** What a screen knows of its address. The router hands on what was not known of it too: an address is typed by hand. */
function useKnown<T extends object>(read: (raw: Record<string, unknown>) => T, raw: T): T {
  return useMemo(() => read(raw as Record<string, unknown>), [read, raw]);
}

const home = createRoute({
  getParentRoute: () => root,
  path: '/',
  beforeLoad: () => {
    throw redirect({ to: '/readiness', search: {} });
  },
});

const readiness = createRoute({
  getParentRoute: () => root,
  path: '/readiness',
  validateSearch: readReadinessSearch,
  component: function ReadinessRoute() {
    return <Readiness search={useKnown(readReadinessSearch, readiness.useSearch())} />;
  },
});

const rigs = createRoute({ getParentRoute: () => root, path: '/rigs', component: Rigs });

const rig = createRoute({
  getParentRoute: () => root,
  path: '/rigs/$rig',
  validateSearch: readRigSearch,
  component: function RigRoute() {
    return <RigPage rig={rig.useParams().rig} search={useKnown(readRigSearch, rig.useSearch())} />;
  },
});

const walk = createRoute({
  getParentRoute: () => root,
  path: '/rigs/$rig/walk',
  component: function WalkRoute() {
    return <WalkRound rig={walk.useParams().rig} />;
  },
});

const changeover = createRoute({
  getParentRoute: () => root,
  path: '/rigs/$rig/changeover/$to',
  component: function ChangeoverRoute() {
    const { rig: from, to } = changeover.useParams();
    return <Changeover from={from} to={to} />;
  },
});

const rules = createRoute({
  getParentRoute: () => root,
  path: '/rules',
  validateSearch: readRuleSearch,
  component: function RulesRoute() {
    return <RuleBook search={useKnown(readRuleSearch, rules.useSearch())} />;
  },
});

const department = createRoute({
  getParentRoute: () => root,
  path: '/department',
  validateSearch: readDepartmentSearch,
  component: function DepartmentRoute() {
    return <Department search={useKnown(readDepartmentSearch, department.useSearch())} />;
  },
});

const due = createRoute({
  getParentRoute: () => root,
  path: '/due',
  validateSearch: readSearch,
  component: function DueRoute() {
    return <ComingDue search={useKnown(readSearch, due.useSearch())} />;
  },
});

const thing = createRoute({
  getParentRoute: () => root,
  path: '/thing/$item',
  validateSearch: (raw: Record<string, unknown>): { duty?: string } =>
    typeof raw.duty === 'string' ? { duty: raw.duty } : {},
  component: function ThingRoute() {
    return <ThingPage item={thing.useParams().item} duty={thing.useSearch().duty} />;
  },
});

const checks = createRoute({ getParentRoute: () => root, path: '/checks', component: Checks });

const check = createRoute({
  getParentRoute: () => root,
  path: '/checks/$checkoff',
  component: function CheckRoute() {
    return <OneCheck checkoff={check.useParams().checkoff} />;
  },
});

const kits = createRoute({ getParentRoute: () => root, path: '/kits', component: Kits });

const kit = createRoute({
  getParentRoute: () => root,
  path: '/kits/$item',
  validateSearch: (raw: Record<string, unknown>): { count?: true } =>
    raw.count === true ? { count: true } : {},
  component: function KitRoute() {
    return <OneKit item={kit.useParams().item} count={kit.useSearch().count === true} />;
  },
});

const kitTemplate = createRoute({
  getParentRoute: () => root,
  path: '/kits/templates/$template',
  component: function KitTemplateRoute() {
    return <KitTemplate template={kitTemplate.useParams().template} />;
  },
});

const tagOuts = createRoute({ getParentRoute: () => root, path: '/tagouts', component: TagOuts });

const notices = createRoute({ getParentRoute: () => root, path: '/notices', component: Notices });

const notice = createRoute({
  getParentRoute: () => root,
  path: '/notices/$notice',
  component: function NoticeRoute() {
    return <OneNotice notice={notice.useParams().notice} />;
  },
});
const supply = createRoute({ getParentRoute: () => root, path: '/supply', component: Supply });
const fills = createRoute({ getParentRoute: () => root, path: '/fills', component: Fills });

const carry = createRoute({
  getParentRoute: () => root,
  path: '/carry/$of',
  component: function CarryRoute() {
    return <Carry of={carry.useParams().of} />;
  },
});

const incidents = createRoute({ getParentRoute: () => root, path: '/incidents', component: Incidents });

const incident = createRoute({
  getParentRoute: () => root,
  path: '/incidents/$incident',
  component: function IncidentRoute() {
    return <OneIncident incident={incident.useParams().incident} />;
  },
});

const sheets = createRoute({ getParentRoute: () => root, path: '/import', component: ImportScreen });
const look = createRoute({ getParentRoute: () => root, path: '/look', component: Look });

export function createScreens() {
  return createRouter({
    routeTree: root.addChildren([
      home,
      readiness,
      rigs,
      rig,
      walk,
      changeover,
      checks,
      check,
      carry,
      kits,
      kit,
      kitTemplate,
      tagOuts,
      notices,
      notice,
      supply,
      fills,
      incidents,
      incident,
      due,
      thing,
      sheets,
      rules,
      department,
      look,
    ]),
    history: createHashHistory(),
    defaultErrorComponent: ({ error }) => (
      <main>
        <h1>This screen could not be shown.</h1>
        <p>
          {error instanceof Error ? error.message : 'Something went wrong.'} Nothing that was written is lost.{' '}
          <a href="#/readiness">Go to Readiness</a>, or open the address anew.
        </p>
      </main>
    ),
    defaultNotFoundComponent: () => <p>There is no such screen.</p>,
  });
}

declare module '@tanstack/react-router' {
  interface Register {
    router: ReturnType<typeof createScreens>;
  }
}
