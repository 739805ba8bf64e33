import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Runs one project after the other: a worker that changes projects restarts. */
export default class ByProject extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    // The browser tests are long; the short unit tests fill up the end.
    return sorted.sort((a, b) => a.project.name.localeCompare(b.project.name));
  }
}
