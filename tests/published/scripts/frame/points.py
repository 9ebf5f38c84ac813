"""Points of one stage as arrays: lengths in mm, vehicle axes (x forward, y left, z up)."""
from dataclasses import dataclass

import numpy as np

LEAST_UNCERTAINTY = 0.01


@dataclass(frozen=True)
class Points:
    """k points. side: 'L', 'R' or 'C'. reference, reading, tolerance: (k, 3); variance: (k,), reading and reference, one axis."""

    ids: tuple
    names: tuple
    sides: tuple
    parts: tuple
    reference: np.ndarray
    reading: np.ndarray
    variance: np.ndarray
    tolerance: np.ndarray

    def __len__(self):
        return len(self.ids)

    def take(self, indices):
        indices = np.asarray(indices, int)

        def pick(entries):
            return tuple(entries[i] for i in indices)

        return Points(pick(self.ids), pick(self.names), pick(self.sides), pick(self.parts), self.reference[indices],
                      self.reading[indices], self.variance[indices], self.tolerance[indices])

    def chosen(self, ids):
        wanted = set(ids)
        return self.take([i for i, name in enumerate(self.ids) if name in wanted])


def points_of(rows):
    """Rows as in the JSON: id, side, part (or null), reference, reading (or null), variance, tolerance."""
    names = [row["id"][:-2] if row["id"][-2:] in (".L", ".R") else row["id"] for row in rows]
    missing = [np.nan] * 3

    def table(key):
        return np.array([row[key] if row.get(key) is not None else missing for row in rows], float).reshape(-1, 3)

    return Points(tuple(row["id"] for row in rows), tuple(names), tuple(row["side"] for row in rows),
                  tuple(row["part"] for row in rows), table("reference"), table("reading"),
                  np.array([row["variance"] for row in rows], float), table("tolerance"))


def base_weights(base, build):
    """1/(u(reading)² + u(reference)² + build²), u not under 0.01 mm."""
    return 1 / np.maximum(base.variance + build**2, LEAST_UNCERTAINTY**2)
