"""The lines of a check: ours, independent, difference, tolerance, verdict."""


class Sheet:
    """Collects and prints comparisons of one job."""

    def __init__(self, job):
        self.job, self.rows = job, []

    def _row(self, name, ours, theirs, difference, tolerance, good):
        self.rows.append((name, ours, theirs, difference, tolerance, good))
        verdict = "PASS" if good else "MISS"
        print(f"{name:<66} {ours:>16} {theirs:>16} {difference:>11} {tolerance:>9} {verdict}")

    def near(self, name, ours, theirs, rel=None, absolute=None):
        """One figure within a share or an absolute amount."""
        if ours is None or theirs is None or ours != ours:
            self._row(name, str(ours), str(theirs), "none", "-", False)
            return
        off = abs(ours - theirs)
        if rel is not None:
            share = off / abs(theirs) if theirs else (0.0 if off == 0 else float("inf"))
            shown, limit, good = f"{100 * share:.4f} %", f"{100 * rel:g} %", share <= rel
        else:
            shown, limit, good = f"{off:.3g}", f"{absolute:g}", off <= absolute
        self._row(name, f"{ours:.7g}", f"{theirs:.7g}", shown, limit, good)

    def worst(self, name, pairs, rel=None, absolute=None):
        """Many of one kind: the one that differs most is shown. Pairs of label, ours, theirs."""
        pairs = list(pairs)
        if not pairs:
            self._row(f"{name} (none)", "-", "-", "-", "-", False)
            return

        def off(pair):
            _, a, b = pair
            if a is None or b is None or a != a or b != b:
                return float("inf")
            return abs(a - b) / abs(b) if rel is not None and b else abs(a - b)

        label, a, b = max(pairs, key=off)
        self.near(f"{name}, worst of {len(pairs)}: {label}", a, b, rel, absolute)

    def holds(self, name, value, limit, good):
        """A condition rather than a figure."""
        self._row(name, f"{value:.7g}", f"{limit:.7g}", "condition", "-", bool(good))

    def same(self, name, ours, theirs):
        """A count or a word."""
        self._row(name, str(ours), str(theirs), "exact", "-", ours == theirs)
