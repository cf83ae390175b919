import type { RuleLine } from '../../../db/api-rules.ts';
import { forceIn, isConfirmed, isJudgedIn, UNKNOWN_PROFILE } from '../../../domain/rulebook/force.ts';
import type { Requirement } from '../../../domain/rulebook/types.ts';

/** A requirement as the book offers it to a department of which nothing is known yet. */
export function offeredLine(requirement: Requirement): RuleLine {
  return {
    requirement,
    from: null,
    to: null,
    adopted: false,
    force: forceIn(requirement, UNKNOWN_PROFILE),
    toConfirm: !isConfirmed(requirement),
    hasNewer: false,
    isJudgedHere: isJudgedIn(requirement, UNKNOWN_PROFILE),
  };
}
