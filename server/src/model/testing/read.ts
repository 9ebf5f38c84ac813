import { parseText } from '../../text/yaml/parse';
import type { Chassis } from '../chassis';
import type { Job } from '../job';
import { chassisSheet } from '../read/chassis-from-text';
import { jobFrom } from '../read/job-from-text';
import { chassisFrom } from '../resolve/chassis-merge';

/** A chassis read from its text and those of its parents, itself first. */
export const chassisOf = (...texts: string[]): Chassis =>
  chassisFrom(texts.map((text, i) => chassisSheet(`file:///shop/${i}.chassis.yaml`, parseText(text))));

/** A job read from the lines below its first two. */
export const jobOf = (lines: string): Job =>
  jobFrom(
    'file:///shop/w.readings.yaml',
    parseText(`framewright: readings/1\nchassis: 0.chassis.yaml\n${lines}`),
  );
