import type { ScatterJson } from '@framewright/schemas';
import { measuredScatter } from '../inspection/cars/scatter';
import { type ScatterCar, scatterCar } from '../inspection/cars/scatter-block';
import type { Chassis } from '../model/chassis';
import { printable } from '../text/printable';
import type { Files } from '../workspace/files';
import { fileKind } from '../workspace/files';
import { Workspace } from '../workspace/workspace';
import type { Output } from './check-selected';
import { collected, pathBeside, type Target } from './collect';
import { type BodyScatter, scatterJson, scatterLines } from './formats/scatter-lines';

interface Body {
  readonly path: string;
  readonly chassis: Chassis;
  readonly cars: ScatterCar[];
}

/** How sound cars and instruments scatter, by all jobs below some folders. Changes no file. Exit code 0, or 2 where something cannot be read. */
export async function scatter(
  files: Files,
  paths: readonly Target[],
  asJson: boolean,
  output: Output,
): Promise<number> {
  const workspace = new Workspace(files);
  const bodies = new Map<string, Body>();
  const seen = new Set<string>();
  let unreadable = false;
  const complain = (line: string): void => {
    output.complain(printable(`framewright: ${line}`));
    unreadable = true;
  };
  for (const path of paths) {
    const { targets, unread } = await collected(files, path.uri, path.path);
    unread.forEach(complain);
    for (const target of targets) {
      if (fileKind(target.uri) !== 'readings' || seen.has(target.uri)) continue;
      seen.add(target.uri);
      const analysis = await workspace.analysis(target.uri);
      if (!('findings' in analysis)) complain(`${target.path}: ${analysis.message}`);
      else if (analysis.kind === 'readings' && analysis.inspection !== null) {
        const { chassis } = analysis.inspection;
        const body = bodies.get(chassis.uri) ?? {
          path: pathBeside(target, chassis.uri),
          chassis,
          cars: [],
        };
        bodies.set(chassis.uri, body);
        const car = scatterCar(analysis.inspection);
        if (car !== null) body.cars.push(car);
      }
    }
  }
  const measured = [...bodies.values()]
    .sort((a, b) => (a.path < b.path ? -1 : 1))
    .map(
      ({ path, chassis, cars }): BodyScatter => ({
        path,
        unit: chassis.unit,
        cars: cars.length,
        measured: measuredScatter(cars, chassis),
      }),
    );
  tell(measured, asJson, output);
  return unreadable ? 2 : 0;
}

function tell(measured: readonly BodyScatter[], asJson: boolean, { print }: Output): void {
  const json: ScatterJson = scatterJson(measured);
  const lines = asJson ? JSON.stringify(json, null, 2).split('\n') : scatterLines(measured);
  for (const line of lines) print(printable(line));
}
