#!/usr/bin/env python3
"""Joins checks.csv with what the tests recorded and prints one line a row.

Exit 1 if any row is out, or was not compared though no test says that it has to wait.
"""
import csv
import math
import pathlib
import re
import sys


def recorded(path):
    """The comparison farthest from its value, by row."""
    worst = {}
    with open(path, encoding="utf-8") as log:
        for line in log:
            row, value, expected, tolerance = line.rstrip("\n").split("\t")
            entry = (float(value), float(expected), float(tolerance))
            residual = abs(entry[0] - entry[1])
            if row not in worst or not residual <= abs(worst[row][0] - worst[row][1]):
                worst[row] = entry
    return worst


def waiting():
    """Rows that the suite itself lets wait."""
    test = pathlib.Path(__file__).parent.parent / "tests/sim/check_rows_test.cpp"
    return set(re.findall(r"row\.id == (\d+)", test.read_text(encoding="utf-8")))


def main():
    table, log = sys.argv[1:3]
    may_wait = waiting()
    missing = 0
    compared = recorded(log)
    counts = {"within": 0, "out": 0, "not compared": 0}
    print("row  predicted  expected  residual  tolerance  verdict  unit | what | source")
    with open(table, encoding="utf-8", newline="") as rows:
        for row in csv.reader(rows):
            if not row or not row[0].isdigit():
                continue
            what = f"{row[4]} | {row[1]}: {row[2]} | {row[6]}"
            if row[0] not in compared:
                counts["not compared"] += 1
                missing += row[0] not in may_wait
                print(f"{row[0]:>3}  -  {row[3]}  -  {row[5]}  not compared  {what}")
                continue
            value, expected, tolerance = compared[row[0]]
            residual = value - expected
            good = math.isfinite(residual) and abs(residual) <= tolerance
            counts["within" if good else "out"] += 1
            print(f"{row[0]:>3}  {value:.9g}  {expected:.9g}  {residual:+.2g}  {tolerance:.2g}  "
                  f"{'within' if good else 'OUT'}  {what}")
    print(f"{sum(counts.values())} rows: {counts['within']} within, {counts['out']} out, "
          f"{counts['not compared']} not compared here")
    if missing:
        print(f"{missing} of these should have been: the tests that compare them did not run")
    return 1 if counts["out"] or missing else 0


if __name__ == "__main__":
    sys.exit(main())
