import type { Reporter, TestModule } from 'vitest/node';

/** Closes a run with one plain line that any reader of logs understands. */
export default class PlainReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    let passed = 0;
    let failed = 0;
    for (const module of modules) {
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state === 'passed') passed += 1;
        else if (state === 'failed') failed += 1;
      }
      failed += module.errors().length;
    }
    console.log(`${passed} passed, ${failed} failed`);
  }
}
