/** The store as hosts use it, so that tests may put another in its place. */
import type { openDepartment, runDemo } from '../db/store/client.ts';

export interface Store {
  openDepartment: typeof openDepartment;
  runDemo: typeof runDemo;
}
