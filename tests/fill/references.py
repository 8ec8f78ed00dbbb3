#!/usr/bin/env python3
"""References for the fill, by general solvers that share no code with it. Run by hand:

    python3 -m venv venv && venv/bin/pip install ortools highspy numpy
    venv/bin/python tests/fill/references.py [--time 60] PROBLEM.json ...

Takes both kinds of problem files (`catchcrop fill PLAN --write-problem FILE` writes a full one) and prints a line
for each:

  relaxation  optimum of the linear relaxation over classes of beds (HiGHS): no plan is worth more but for what
              good neighbours add, which the relaxation leaves out as it leaves out harm between neighbours
  counts      best numbers of plantings by bed that CP-SAT finds in --time seconds on two threads, not yet arranged
              on cells, and CP-SAT's bound on them
  arranged    their value once each bed is arranged (CP-SAT again, up to 10 s a bed, what finds no room left out);
              only for problems without mates

All in points. The table of the benchmark (tests/speed/fill.tsv) holds `arranged` and `relaxation`.
"""
import argparse
import json
import math
from collections import defaultdict

import highspy
import numpy as np
from ortools.sat.python import cp_model


def full(p):
    """A compact problem file in the shape of a full one."""
    if p.get("kind") == "full":
        return p
    weeks, wish_of = p["weeks"], {w["crop"]: k for k, w in enumerate(p["wishes"])}
    key = lambda b: (b["h"], b["w"], b["vol"], b["sun"], b["tag"])
    likes = [key(b) for b in p["beds"]]
    beds = [dict(height=b["h"], width=b["w"], like=likes.index(key(b))) for b in p["beds"]]
    hard = p["hard_rotation"]
    groups = [dict(reach="cell", apart=weeks if f in hard else 0, again=0 if f in hard else p["repeat_pen"])
              for f in p["families"]]

    def places(c):
        out, years = [], hard.get(p["families"][c["family"]], 0)
        for k, b in enumerate(p["beds"]):
            pot = b["vol"] < 999
            if c["sun"] > b["sun"] or (pot and not 0 < c["pot"] <= b["vol"]) or (b["tag"] == 1 and not c["flower"]):
                continue
            ago = [[y for y, f in enumerate(past) if f == c["family"]] for past in b["history"]]
            cells = [x for x in range(b["h"] * b["w"]) if all(y >= years for y in ago[x])]
            costs = [max([p["rot_pen"][y] for y in a], default=0) for a in ago]
            single = 0 if c["h"] * c["w"] == 1 else int(pot)
            out.append(dict(bed=k, cells=cells, costs=costs, shapes=[single]))
        return out

    ways = []
    for k, c in enumerate(p["crops"]):
        sizes = sorted({(c["h"], c["w"]), (c["w"], c["h"])})
        shapes = [dict(sizes=sizes, plants=1)] + ([] if c["h"] * c["w"] == 1 else [dict(sizes=[(1, 1)], plants=1)])
        starts = []
        for week, long, harvest in c["starts"]:
            uses = [[0, week, c["lab_plant"], 0]] + [[0, t, c["lab_harvest"], 0] for t, _ in harvest]
            if c["tray"]:
                uses += [[1, t, c["tray"], 0] for t in range(max(0, week - c["tray_weeks"]), week)]
            starts.append(dict(week=week, taken=[[week, week + long]], harvest=harvest, uses=uses))
        ways.append(dict(wish=wish_of.get(k), groups=[c["family"]], shapes=shapes, starts=starts, places=places(c)))
    wishes = [dict(buckets=[[w["first"] + b * w["bucket_weeks"],
                             min(w["first"] + (b + 1) * w["bucket_weeks"], weeks),
                             w["want"], w["extra"], w["v1"], w["v2"]] for b in range(w["buckets"])])
              for w in p["wishes"]]
    supplies = [dict(there=[p["labour_cap"]] * weeks), dict(there=[p["tray_cap"]] * weeks)]
    fixed = []
    for lock in p.get("locked", []):
        c = p["crops"][lock["crop"]]
        week, long, harvest = c["starts"][lock["start"]]
        b = p["beds"][lock["bed"]]
        cells = [(lock["r"] + i) * b["w"] + lock["c"] + j for i in range(c["h"]) for j in range(c["w"])]
        gives, w = [], wish_of.get(lock["crop"])
        for t, amount in harvest:
            for n, bucket in enumerate(wishes[w]["buckets"] if w is not None else []):
                if bucket[0] <= t < bucket[1]:
                    gives.append([w, n, amount])
        place = next(q for q in places(c) if q["bed"] == lock["bed"])
        for s, t, amount, _ in ways[lock["crop"]]["starts"][lock["start"]]["uses"]:
            supplies[s]["there"][t] -= amount
        fixed.append(dict(groups=[c["family"]], bed=lock["bed"], cells=cells, taken=[[week, week + long]],
                          gives=gives, cost=sum(place["costs"][x] for x in cells)))
    return dict(weeks=weeks, point=1000, beds=beds, groups=groups, supplies=supplies, wishes=wishes, ways=ways,
                fixed=fixed)


class Model:
    """Columns: a way in one shape at one start in a class of beds; what they take, give and cost."""

    def __init__(self, p, by_bed):
        self.p, self.by_bed = p, by_bed
        self.room = defaultdict(int)  # row -> what there is
        self.columns = []  # (bed class, most, cost, {row: amount}, {bucket: amount}, (way, shape, start))
        self.given = defaultdict(int)
        self.settled = 0
        self.lay_out()

    def kind(self, bed):
        return bed if self.by_bed else self.p["beds"][bed]["like"]

    def lay_out(self):
        p, weeks = self.p, self.p["weeks"]
        sites = [self.sites(w) if w.get("wish") is not None else {} for w in p["ways"]]
        open_cells, open_group = defaultdict(set), defaultdict(set)
        for way, own in zip(p["ways"], sites):
            for (_, bed), found in own.items():
                cells = {x for cells, _, _, _ in found for x in cells}
                open_cells[bed] |= cells
                for g in way["groups"]:
                    open_group[bed, g] |= cells
        for s, supply in enumerate(p["supplies"]):
            for t, n in enumerate(supply["there"]):
                self.room["supply", s, t] = max(0, n)
        taken = defaultdict(set)
        for f in p.get("fixed", []):
            self.settled -= f.get("cost", 0)
            for w, b, amount in f.get("gives", []):
                self.given[w, b] += amount
            (start, end), main = f["taken"][0], f.get("layer", "main") == "main"
            for t in range(start, end):
                if main:
                    taken[f["bed"], "main", t] |= set(f["cells"])
            for g in f.get("groups", []):
                if p["groups"][g].get("apart", 0) and main:
                    for t in range(start, min(weeks, end + p["groups"][g]["apart"])):
                        taken[f["bed"], g, t] |= set(f["cells"])
                if p["groups"][g].get("again", 0) and p["groups"][g]["reach"] == "cell":
                    self.room["turn", self.kind(f["bed"]), g] -= len(open_group[f["bed"], g] & set(f["cells"]))
        for bed in range(len(p["beds"])):
            for t in range(weeks):
                self.room["main", self.kind(bed), t] += len(open_cells[bed] - taken[bed, "main", t])
                self.room["mate", self.kind(bed), t] += len(open_cells[bed])
            for g in range(len(p["groups"])):
                self.room["turn", self.kind(bed), g] += len(open_group[bed, g])
                for t in range(weeks):
                    self.room["group", self.kind(bed), g, t] += len(open_group[bed, g] - taken[bed, g, t])
        for w, (way, own) in enumerate(zip(p["ways"], sites)):
            by_kind = defaultdict(list)
            for (shape, bed), found in own.items():
                by_kind[shape, self.kind(bed)].append(found)
            for (shape, kind), lists in by_kind.items():
                for start in range(len(way["starts"])):
                    self.column(w, shape, start, kind, lists)

    def sites(self, way):
        """(shape, bed) -> blocks with their cost and the start weeks they hold for."""
        out = defaultdict(list)
        for place in way.get("places", []):
            bed = self.p["beds"][place["bed"]]
            high, wide = bed["height"], bed["width"]
            stretches = place["cells"]
            cells = {x for s in stretches for x in (range(s[0], s[1]) if isinstance(s, list) else [s])}
            costs = place.get("costs", 0)
            cost_of = lambda x: costs[x] if isinstance(costs, list) and costs else costs or 0
            for k, shape in enumerate(way["shapes"]):
                if place.get("shapes") and k not in place["shapes"]:
                    continue
                for h, w in shape["sizes"]:
                    for r in range(high - h + 1):
                        for c in range(wide - w + 1):
                            block = [(r + i) * wide + c + j for i in range(h) for j in range(w)]
                            if cells.issuperset(block):
                                span = (place.get("from", 0), place.get("to", self.p["weeks"]))
                                out[k, place["bed"]].append((block, sum(map(cost_of, block)), *span))
        return out

    def column(self, w, shape, start, kind, lists):
        p, way = self.p, self.p["ways"][w]
        s, n = way["starts"][start], way["shapes"][shape]["plants"]
        week, end = s["taken"][0][0], s["taken"][-1][1]
        area, most, cost = 0, 0, math.inf
        for found in lists:
            held = [(cells, c) for cells, c, a, z in found if a <= s["week"] < z]
            if held:
                area = len(held[0][0])
                most += len({x for cells, _ in held for x in cells}) // area
                cost = min(cost, min(c for _, c in held))
        gives = defaultdict(int)
        for t, amount in s.get("harvest", []):
            for b, bucket in enumerate(p["wishes"][way["wish"]]["buckets"]):
                if bucket[0] <= t < bucket[1]:
                    gives[way["wish"], b] += amount * n
        if not most or not any(gives.values()):
            return
        takes, mate = defaultdict(int), way.get("layer", "main") == "mate"
        shared = any(main == w for main, _ in p.get("pairs", []))
        is_open = lambda t: any(a <= t < z for a, z in s.get("open", []))
        for t in range(week, end):
            if not mate:
                takes["main", kind, t] += area
            if mate or not (shared or is_open(t)):
                takes["mate", kind, t] += area
        for g in way["groups"]:
            group = p["groups"][g]
            if group.get("apart", 0) and not mate:
                for t in range(week, min(p["weeks"], end + group["apart"])):
                    takes["group", kind, g, t] += area
            if group.get("again", 0) and group["reach"] == "cell":
                takes["turn", kind, g] += area
        for supply, t, planting, plant in s.get("uses", []):
            takes["supply", supply, t] += planting + plant * n
        self.columns.append((kind, most, cost, takes, gives, (w, shape, start)))

    def steps(self):
        """Per bucket: settled amount, its worth, the step, and (number of steps, value of a step) on."""
        for w, wish in enumerate(self.p["wishes"]):
            for b, (_, _, want, extra, value, beyond) in enumerate(wish["buckets"]):
                worth = lambda a: value * min(a, want) + beyond * min(max(a - want, 0), extra)
                amounts = [c[4][w, b] for c in self.columns if c[4].get((w, b))]
                step, at, pieces = math.gcd(*amounts) if amounts else 0, self.given[w, b], []
                base = worth(at)
                while step and at < want + extra and worth(at + step) > worth(at):
                    edge = want if at < want else want + extra
                    n = max(1, (edge - at) // step)
                    pieces.append((n, worth(at + step) - worth(at)))
                    at += n * step
                yield (w, b), base, step, pieces


def relaxation(p):
    """Optimum of the linear relaxation over classes of beds, in points."""
    m = Model(p, False)
    rows, entries, cost, upper, value = {}, defaultdict(dict), [], [], m.settled
    row = lambda key: rows.setdefault(key, len(rows))
    for j, (_, most, price, takes, gives, _) in enumerate(m.columns):
        cost.append(price)
        upper.append(most)
        for key, amount in takes.items():
            entries[j][row(key)] = amount
    for bucket, base, step, pieces in m.steps():
        value += base
        if not step:
            continue
        unit = max(c[4][bucket] for c in m.columns if c[4].get(bucket))
        for j, column in enumerate(m.columns):
            if column[4].get(bucket):
                entries[j][row(("harvest", *bucket))] = -column[4][bucket] / unit
        for n, gain in pieces:
            entries[len(cost)][row(("harvest", *bucket))] = step / unit
            cost.append(-gain)
            upper.append(n)
    for key in [k for k in rows if k[0] == "turn"]:
        entries[len(cost)][rows[key]] = -1
        cost.append(p["groups"][key[2]]["again"])
        upper.append(1e5)
    there = [m.room[key] if key[0] != "harvest" else 0 for key in rows]
    start, at, amount = [0], [], []
    for j in range(len(cost)):
        at += list(entries[j])
        amount += list(entries[j].values())
        start.append(len(at))
    lp, solver = highspy.HighsLp(), highspy.Highs()
    solver.setOptionValue("output_flag", False)
    lp.num_col_, lp.num_row_ = len(cost), len(rows)
    lp.col_cost_ = np.array(cost, float) / p["point"]
    lp.col_lower_, lp.col_upper_ = np.zeros(len(cost)), np.array(upper, float)
    lp.row_lower_, lp.row_upper_ = np.full(len(rows), -highspy.kHighsInf), np.array(there, float)
    lp.a_matrix_.format_ = highspy.MatrixFormat.kColwise
    lp.a_matrix_.start_, lp.a_matrix_.index_ = np.array(start), np.array(at)
    lp.a_matrix_.value_ = np.array(amount, float)
    solver.passModel(lp)
    solver.run()
    return value / p["point"] - solver.getInfo().objective_function_value


def counts(p, seconds):
    """Numbers of plantings by bed: (value, bound, model, [(column, number)]), in points."""
    m, cp = Model(p, True), cp_model.CpModel()
    number = [cp.new_int_var(0, c[1], "") for c in m.columns]
    terms, total, value = defaultdict(list), [], m.settled
    for n, column in zip(number, m.columns):
        total.append(-int(column[2]) * n)
        for key, amount in column[3].items():
            terms[key].append(amount * n)
    for key, parts in terms.items():
        if key[0] == "turn":
            again = cp.new_int_var(0, 100000, "")
            total.append(-p["groups"][key[2]]["again"] * again)
            parts = [*parts, -again]
        cp.add(sum(parts) <= m.room[key])
    for bucket, base, step, pieces in m.steps():
        value += base
        bits = [(cp.new_int_var(0, n, ""), gain) for n, gain in pieces]
        total += [gain * bit for bit, gain in bits]
        if bits:
            given = sum(c[4][bucket] // step * n for n, c in zip(number, m.columns) if c[4].get(bucket))
            cp.add(sum(bit for bit, _ in bits) <= given)
    cp.maximize(sum(total))
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds, solver.parameters.num_workers = seconds, 2
    if solver.solve(cp) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    plan = [(c, solver.value(n)) for c, n in zip(m.columns, number) if solver.value(n)]
    scale = lambda units: (units + value) / p["point"]
    return scale(solver.objective_value), scale(solver.best_objective_bound), m, plan


def arranged(p, m, plan):
    """Value of the counts once each bed is arranged on its cells, in points."""
    given, cost, uses = defaultdict(int, m.given), -m.settled, defaultdict(int)
    sites = {w: m.sites(p["ways"][w]) for (_, _, _, _, _, (w, _, _)), _ in plan}
    for f in p.get("fixed", []):
        for g in f.get("groups", []):
            for x in f["cells"]:
                uses[f["bed"], x, g] += 1
    for bed in sorted({c[0] for c, _ in plan}):
        cp, at, group_at, gain, choice = cp_model.CpModel(), defaultdict(list), defaultdict(list), [], []
        blocked = {(x, t) for f in p.get("fixed", []) if f["bed"] == bed
                   for x in f["cells"] for t in range(*f["taken"][0])}
        for c, n in plan:
            if c[0] != bed:
                continue
            w, shape, start = c[5]
            s = p["ways"][w]["starts"][start]
            week, end = s["taken"][0][0], s["taken"][-1][1]
            options = []
            for cells, price, a, z in sites[w][shape, bed]:
                if a <= s["week"] < z and not any((x, t) in blocked for x in cells for t in range(week, end)):
                    lit = cp.new_bool_var("")
                    options.append(lit)
                    choice.append((lit, c, cells, price))
                    gain.append((10_000_000 * len(cells) - price) * lit)
                    for x in cells:
                        for t in range(week, end):
                            at[x, t].append(lit)
                        for g in p["ways"][w]["groups"]:
                            if p["groups"][g].get("apart", 0):
                                group_at[x, g].append(lit)
            cp.add(sum(options) <= n)
        for lits in [*at.values(), *group_at.values()]:
            cp.add_at_most_one(lits)
        cp.maximize(sum(gain))
        solver = cp_model.CpSolver()
        solver.parameters.max_time_in_seconds, solver.parameters.num_workers = 10, 2
        if solver.solve(cp) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            continue
        for lit, c, cells, price in choice:
            if solver.value(lit):
                cost += price
                for bucket, amount in c[4].items():
                    given[bucket] += amount
                for g in p["ways"][c[5][0]]["groups"]:
                    for x in cells:
                        uses[bed, x, g] += 1
    cost += sum(p["groups"][g].get("again", 0) * (n - 1) for (_, _, g), n in uses.items() if n > 1)
    value = -cost
    for w, wish in enumerate(p["wishes"]):
        for b, (_, _, want, extra, one, beyond) in enumerate(wish["buckets"]):
            a = given[w, b]
            value += one * min(a, want) + beyond * min(max(a - want, 0), extra)
    return value / p["point"]


def main():
    say = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    say.add_argument("--time", type=float, default=60, help="seconds for the counts")
    say.add_argument("problems", nargs="+")
    args = say.parse_args()
    for path in args.problems:
        with open(path, encoding="utf-8") as file:
            p = full(json.load(file))
        words = f"{path}: relaxation {relaxation(p):.2f}"
        found = counts(p, args.time) if args.time else None
        if found:
            value, bound, m, plan = found
            words += f"  counts {value:.2f} (bound {bound:.2f})"
            if not any(w.get("layer") == "mate" for w in p["ways"]):
                words += f"  arranged {arranged(p, m, plan):.2f}"
        print(words, flush=True)


if __name__ == "__main__":
    main()
