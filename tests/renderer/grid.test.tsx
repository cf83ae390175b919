import { fireEvent, screen } from '@testing-library/react';
import { useState } from 'react';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { type Column, Grid } from '../../renderer/parts/grid/Grid.tsx';
import { type Stretch, spotOf } from '../../renderer/parts/grid/useWindow.ts';
import { draw, fakeHost } from './browser.tsx';

interface Row {
  number: string;
}
const COLUMNS: readonly Column<Row>[] = [
  { key: 'number', head: 'Number', width: '1fr', cell: r => r.number },
];

// The simulated browser lays nothing out: a table 400 px high is said to be so.
beforeAll(() => {
  Object.defineProperty(HTMLElement.prototype, 'clientHeight', { configurable: true, value: 400 });
  Object.defineProperty(HTMLElement.prototype, 'clientWidth', { configurable: true, value: 800 });
});

function List({ count, onOpen }: { count: number; onOpen: (index: number) => void }) {
  const [active, setActive] = useState(0);
  return (
    <Grid
      label="Hose"
      columns={COLUMNS}
      count={count}
      rowAt={i => ({ number: `31-${i}` })}
      active={active}
      onActive={setActive}
      onOpen={onOpen}
      density="comfortable"
    />
  );
}

describe('a table by keys', () => {
  it('moves the active row with the arrows, stops at the ends, and opens with Enter', () => {
    fakeHost({});
    const onOpen = vi.fn();
    draw(<List count={100_000} onOpen={onOpen} />);
    const grid = screen.getByRole('grid', { name: 'Hose' });
    const press = (key: string) => fireEvent.keyDown(grid, { key });
    const active = () => grid.getAttribute('aria-activedescendant')?.split('-').at(-1);

    press('ArrowUp');
    expect(active()).toBe('0');
    press('ArrowDown');
    press('ArrowDown');
    expect(active()).toBe('2');
    press('Enter');
    expect(onOpen).toHaveBeenLastCalledWith(2);
    press('End');
    expect(active()).toBe('99999');
    press('ArrowDown');
    expect(active()).toBe('99999');
    press('Home');
    expect(active()).toBe('0');
  });

  it('draws a window of a long list and tells readers how long it is', () => {
    fakeHost({});
    draw(<List count={100_000} onOpen={() => {}} />);
    const grid = screen.getByRole('grid', { name: 'Hose' });
    expect(grid.getAttribute('aria-rowcount')).toBe('100001');
    const drawn = screen.getAllByRole('row').length;
    expect(drawn).toBeGreaterThan(10);
    expect(drawn).toBeLessThan(60);
  });
});

describe('lines of a grouped list', () => {
  const stretch = (rows: number): Stretch<never> => ({
    key: String(rows),
    rows,
    headed: true,
    pageOf: () => ({ queryKey: [], queryFn: async () => ({ total: 0, rows: [] }) }),
  });
  const groups = [stretch(2), stretch(0), stretch(1)];

  it('puts a heading before the rows of each group; a folded one is its heading alone', () => {
    const lines = [0, 1, 2, 3, 4, 5, 6].map(line => spotOf(groups, line));
    expect(lines).toEqual([
      { stretch: 0, row: -1 },
      { stretch: 0, row: 0 },
      { stretch: 0, row: 1 },
      { stretch: 1, row: -1 },
      { stretch: 2, row: -1 },
      { stretch: 2, row: 0 },
      null,
    ]);
  });
});
