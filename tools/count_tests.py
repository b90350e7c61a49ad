#!/usr/bin/env python3
"""Reads a Catch2 XML report: prints what failed, or with --counts "passed failed" of test cases."""
import sys
import xml.etree.ElementTree as tree


def cases(path):
    try:
        root = tree.parse(path).getroot()
    except (OSError, tree.ParseError) as error:
        # A report that was cut off means the program crashed: that is a failure, not silence.
        return [(f"test program stopped early ({error})", False, "")]
    found = []
    for case in root.iter("TestCase"):
        result = case.find("OverallResult")
        ok = result is not None and result.get("success") == "true"
        detail = []
        if not ok:
            for expression in case.iter("Expression"):
                if expression.get("success") == "false":
                    where = f"{expression.get('filename')}:{expression.get('line')}"
                    original = (expression.findtext("Original") or "").strip()
                    expanded = (expression.findtext("Expanded") or "").strip()
                    detail.append(f"  {where}: {original}\n    {expanded}")
            for kind in ("Exception", "Failure", "FatalErrorCondition"):
                for entry in case.iter(kind):
                    detail.append(f"  {entry.get('filename')}:{entry.get('line')}: "
                                  f"{(entry.text or '').strip()}")
            for info in case.iter("Info"):
                detail.append(f"  with {(info.text or '').strip()}")
        found.append((case.get("name"), ok, "\n".join(detail)))
    return found


def main():
    counts = "--counts" in sys.argv
    path = [argument for argument in sys.argv[1:] if not argument.startswith("--")][0]
    found = cases(path)
    passed = sum(1 for _, ok, _ in found if ok)
    if counts:
        print(passed, len(found) - passed)
        return
    for name, ok, detail in found:
        if not ok:
            print(f"FAILED: {name}\n{detail}")


main()
