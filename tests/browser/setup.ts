import { keepEvidence } from './evidence.ts';

keepEvidence();
