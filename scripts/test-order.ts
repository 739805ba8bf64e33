import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** The projects one after the other: a worker that changes from one to another starts anew. */
export default class ByProject extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    // The browser's files are the long ones: what is short fills up the end.
    return sorted.sort((a, b) => a.project.name.localeCompare(b.project.name));
  }
}
