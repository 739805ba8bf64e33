/** A chart being edited: what is stored, what is found again, and what a newer revision changes. */

import { signal } from '@preact/signals';
import { describe, expect, it } from 'vitest';
import { createEditing, type EditedModel } from '../../../../src/app/state/editing/editing.ts';
import {
  type ChartDocument,
  type ChartDraft,
  type ChartState,
  digestOf,
  HARBOUR_LANE,
  lastRevision,
  revise,
  setNumber,
  setRemark,
  stateOf,
  toDecimal,
} from '../../../../src/charts/index.ts';

const { id } = HARBOUR_LANE;
const SIX = { pattern: 'cross-side', start: toDecimal(6) } as const;
const SIGNED = { date: '2026-11-25', author: 'Quay Street', why: 'Measured again.' };
const typeSix = (number: number) => (state: ChartState) =>
  setNumber(state, SIX, 'medium', toDecimal(number));
const MEDIUM_SIX = { ...SIX, speed: 'medium' } as const;
const SEVEN = { pattern: 'cross-side', start: toDecimal(7), speed: 'soft' } as const;
const FAULT = { ok: false, say: 'not a number' } as const;
const read = (text: string) => ({ ok: true, number: toDecimal(Number(text)) }) as const;
const remark = (state: ChartState) => setRemark(state, SIX, 'Runs long.');

/** A device with one chart, in memory; the test can make its disk refuse. */
function device(drafts: Map<string, ChartDraft> = new Map()) {
  const charts = signal<readonly ChartDocument[]>([HARBOUR_LANE]);
  const written: ChartDraft[] = [];
  const disk = { full: false };
  const refuse = () => {
    if (disk.full) throw new DOMException('no room', 'QuotaExceededError');
  };
  const model: EditedModel = {
    charts,
    loadDraft: async (chart) => drafts.get(chart) ?? null,
    saveDraft: async (chart, draft) => {
      refuse();
      written.push(draft);
      drafts.set(chart, draft);
    },
    dropDraft: async (chart) => {
      drafts.delete(chart);
    },
    keepChart: async (document) => {
      refuse();
      charts.value = [document];
      return { ok: true };
    },
  };
  const goOn = (change: (state: ChartState) => ChartState) => {
    const now = charts.peek()[0] as ChartDocument;
    charts.value = [revise(now, change(stateOf(lastRevision(now))), { ...SIGNED, author: 'Pier' })];
  };
  return { model, drafts, written, disk, goOn, charts };
}

/** Waits until the device has done what it was asked to. */
const done = () => new Promise((resolve) => setTimeout(resolve));

async function begun(made = device()) {
  const editing = createEditing(made.model, id);
  await done();
  return { ...made, editing };
}

describe('a chart being edited', () => {
  it('begins with nothing to save and nothing found', async () => {
    const { editing } = await begun();
    expect(editing.found.value).toBeNull();
    expect(editing.changed.value).toBe(false);
  });

  it('stores every change on the device, and nothing once all is undone', async () => {
    const { editing, drafts } = await begun();
    editing.edit(typeSix(4.9));
    await done();
    expect(drafts.get(id)).toEqual({
      base: digestOf(lastRevision(HARBOUR_LANE)),
      state: editing.draft.value.now,
    });
    editing.undo();
    await done();
    expect(drafts.has(id)).toBe(false);
    editing.redo();
    await done();
    expect(drafts.get(id)?.state.measured).toEqual([{ ...SIX, medium: 49_000 }]);
  });

  it('writes only the newest of the drafts that wait', async () => {
    const { editing, written } = await begun();
    for (let tenth = 40; tenth < 50; tenth++) editing.edit(typeSix(tenth / 10));
    await done();
    expect(written.length).toBeLessThan(10);
    expect(written.at(-1)?.state.measured).toEqual([{ ...SIX, medium: 49_000 }]);
  });

  it('says if the device cannot store the draft, and loses nothing', async () => {
    const { editing, disk } = await begun();
    disk.full = true;
    editing.edit(typeSix(4.9));
    await done();
    expect(editing.problem.value).toContain('the device has no room left');
    expect(editing.draft.value.now.measured).toHaveLength(1);
    disk.full = false;
    editing.edit(remark);
    await done();
    expect(editing.problem.value).toBeNull();
  });

  it('finds the changes of an earlier page, to resume or discard', async () => {
    const { editing, drafts } = await begun();
    editing.edit(typeSix(4.9));
    await done();
    const again = await begun(device(new Map(drafts)));
    const found = again.editing.found.value;
    expect(found).toMatchObject({ from: { number: lastRevision(HARBOUR_LANE).number } });
    again.editing.resume();
    expect(again.editing.found.value).toBeNull();
    expect(again.editing.draft.value.now).toEqual(editing.draft.value.now);
    again.editing.undo();
    expect(again.editing.changed.value).toBe(false);

    const other = await begun(device(new Map(drafts)));
    other.editing.discard();
    await done();
    expect(other.editing.changed.value).toBe(false);
    expect(other.drafts.has(id)).toBe(false);
  });

  it('saves the changes as a revision, and starts over from it', async () => {
    const { editing, charts, drafts } = await begun();
    editing.edit(typeSix(4.9));
    expect(await editing.save(SIGNED)).toEqual({ ok: true });
    await done();
    const last = lastRevision(charts.value[0] as ChartDocument);
    expect(last).toMatchObject({ ...SIGNED, number: 4, measured: [{ ...SIX, medium: 49_000 }] });
    expect(editing.changed.value).toBe(false);
    expect(editing.newer.value).toBeNull();
    expect(drafts.has(id)).toBe(false);
  });

  it('keeps changes made while a revision is written', async () => {
    const { editing, drafts } = await begun();
    editing.edit(typeSix(4.9));
    const saving = editing.save(SIGNED);
    editing.edit(remark);
    await saving;
    await done();
    expect(editing.changed.value).toBe(true);
    expect(drafts.get(id)?.state.remarks).toHaveLength(1);
    editing.undo();
    expect(editing.changed.value).toBe(false);
  });

  it('keeps the draft if the disk refuses the revision', async () => {
    const { editing, disk } = await begun();
    editing.edit(typeSix(4.9));
    disk.full = true;
    await expect(editing.save(SIGNED)).rejects.toThrow('no room');
    expect(editing.changed.value).toBe(true);
  });

  it('follows the chart while nothing is changed', async () => {
    const { editing, goOn } = await begun();
    goOn(typeSix(4.9));
    expect(editing.draft.value.now.measured).toHaveLength(1);
    expect(editing.newer.value).toBeNull();
  });

  it('says if the chart has a newer revision, and applies its changes to it', async () => {
    const { editing, goOn, drafts, charts } = await begun();
    editing.edit(remark);
    editing.edit(typeSix(4.9));
    goOn((state) =>
      setNumber(typeSix(4.7)(state), { ...SIX, start: toDecimal(7) }, 'soft', toDecimal(5.4)),
    );
    expect(editing.newer.value?.author).toBe('Pier');
    editing.rebase();
    await done();
    expect(editing.newer.value).toBeNull();
    const { now } = editing.draft.value;
    expect(now.remarks).toHaveLength(1);
    // Both changed six at medium: the player's own stays. The other's seven is adopted.
    expect(now.measured).toEqual([
      { ...SIX, medium: 49_000 },
      { ...SIX, start: 70_000, soft: 54_000 },
    ]);
    const later = lastRevision(charts.value[0] as ChartDocument);
    expect(drafts.get(id)?.base).toBe(digestOf(later));
    editing.undo();
    expect(editing.draft.value.now).toEqual(stateOf(later));
  });

  it('keeps a text that is not a number while edits after it are undone, then removes it', async () => {
    const { editing } = await begun();
    editing.typeInto(SEVEN, 'five', FAULT);
    editing.leave(SEVEN);
    editing.edit(remark);
    editing.undo();
    expect(editing.draft.value.now.remarks).toEqual([]);
    expect(editing.faulty.value).toEqual([SEVEN]);
    editing.undo();
    expect(editing.faulty.value).toEqual([]);
    expect(editing.canUndo.value).toBe(false);
  });

  it('removes a text that is not a number before it undoes an edit before it', async () => {
    const { editing } = await begun();
    editing.edit(typeSix(4.9));
    editing.typeInto(SEVEN, 'x', FAULT);
    editing.undo();
    expect(editing.faulty.value).toEqual([]);
    expect(editing.draft.value.now.measured).toEqual([{ ...SIX, medium: 49_000 }]);
    editing.undo();
    expect(editing.changed.value).toBe(false);
  });

  it.each([
    ['an empty cell', null],
    ['a number', 4.9],
  ])('leaves %s as it was under a text that is not a number', async (_name, old) => {
    const { editing } = await begun();
    if (old !== null) editing.edit(typeSix(old));
    const { now, past } = editing.draft.value;
    for (const text of ['1', '1.', '1.5']) editing.typeInto(MEDIUM_SIX, text, read(text));
    expect(editing.draft.value.now.measured).toEqual([{ ...SIX, medium: 15_000 }]);
    for (const text of ['1.5.', '1.5.2']) editing.typeInto(MEDIUM_SIX, text, FAULT);
    expect(editing.draft.value.now).toEqual(now);
    expect(editing.draft.value.past).toEqual(past);
    expect(editing.typed.value.get('Cross-side from 6.0, medium')?.text).toBe('1.5.2');
  });

  it('lists cells without a number in the order of the editor', async () => {
    const { editing } = await begun();
    const corner = { pattern: 'foot-to-side', start: toDecimal(2), speed: 'firm' } as const;
    for (const cell of [SEVEN, MEDIUM_SIX, corner]) editing.typeInto(cell, 'x', FAULT);
    expect(editing.faulty.value).toEqual([corner, MEDIUM_SIX, SEVEN]);
  });
});
