"""Optimal cutting lists by another hand: HiGHS on an arc-flow model, for tests/cut/orders.json.

    python -m venv env && env/bin/pip install highspy==1.16.0 numpy==2.4.6
    env/bin/python tests/cut/solver.py tests/cut/orders.json

Orders are drawn at random with a fixed seed. The model is exact and shares nothing with the search: a path from 0 to
the end of a bar is a way to cut it (J. M. Valerio de Carvalho, "Exact solution of bin-packing problems using column
generation and branch-and-bound", Annals of Operations Research 86 (1999)). A piece takes its length and one kerf, a bar
gives its length less the end waste and plus one kerf. Pieces with their kerf are whole centimetres, which keeps the
model small and costs nothing of its exactness. Orders that HiGHS does not prove optimal within its time are left out
and others drawn in their place; the head of the file says how many were drawn and how many of them it proved.
"""

import json
import random
import sys

import highspy
import numpy as np

COUNT = 100
SECONDS = 4.0
CENTIMETRE = 10


def solve(order):
    """Least cost of the order in the unit of its costs, or None when not proved in time."""
    kerf, waste = order["kerf"], order["end_waste"]
    pieces = {}
    for length, count in order["pieces"]:
        size, rest = divmod(length + kerf, CENTIMETRE)
        assert rest == 0
        pieces[size] = pieces.get(size, 0) + count
    sizes = sorted(pieces, reverse=True)
    rooms = [(length - waste + kerf) // CENTIMETRE for length, _, _ in order["stock"]]
    longest = max(rooms)
    # Arcs go from longer to shorter sizes, and a size stands in one place at most as often as it is wanted.
    reach = {0}
    arcs = []
    for size in sizes:
        level, steps = set(reach), set(reach)
        for _ in range(pieces[size]):
            steps = {at + size for at in steps if at + size <= longest}
            if not steps:
                break
            level |= steps
        starts = set(at for at in level if at + size in level)
        arcs += [(at, at + size, size) for at in starts]
        reach = level
    nodes = sorted(reach)
    index = {at: k for k, at in enumerate(nodes)}

    model = highspy.Highs()
    model.setOptionValue("output_flag", False)
    model.setOptionValue("time_limit", SECONDS)
    model.setOptionValue("mip_rel_gap", 0.0)
    model.setOptionValue("mip_abs_gap", 1e-6)
    inf = highspy.kHighsInf
    # Rows: flow at every node but 0, then demand of every size, then the count of every stock.
    rows = len(nodes) - 1
    total = sum(pieces.values())
    for _ in nodes[1:]:
        model.addRow(0.0, 0.0, 0, np.array([], dtype=np.int32), np.array([]))
    for size in sizes:
        model.addRow(float(pieces[size]), inf, 0, np.array([], dtype=np.int32), np.array([]))
    for _, count, _ in order["stock"]:
        most = inf if count is None else float(count)
        model.addRow(0.0, most, 0, np.array([], dtype=np.int32), np.array([]))

    def column(cost, most, entries):
        entries = sorted(entries)
        where = np.array([row for row, _ in entries], dtype=np.int32)
        model.addCol(cost, 0.0, most, len(entries), where, np.array([value for _, value in entries], dtype=float))
        model.changeColIntegrality(model.getNumCol() - 1, highspy.HighsVarType.kInteger)

    for start, end, size in arcs:
        entries = [(index[end] - 1, 1.0), (rows + sizes.index(size), 1.0)]
        if start > 0:
            entries.append((index[start] - 1, -1.0))
        column(0.0, float(total), entries)
    # A path leaves for a kind of bar from any node within its room.
    for kind, (room, (_, _, cost)) in enumerate(zip(rooms, order["stock"])):
        for at in nodes[1:]:
            if at <= room:
                column(float(cost), float(total), [(index[at] - 1, -1.0), (rows + len(sizes) + kind, 1.0)])
    model.run()
    if model.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        return None
    return round(model.getInfo().objective_function_value)


def draw(number, dice):
    """An order: pieces (length, count), stock (length, count or None, cost), kerf and end waste, all in mm."""
    sort = number % 7
    wanted = dice.randint(5, 60)
    kinds = wanted if dice.random() < 0.4 else dice.randint(1, min(wanted, 12))
    low, high = [(60, 220), (200, 900), (300, 1400), (90, 1200), (500, 1500)][dice.randrange(5)]
    kerf = dice.choice([0, 1, 2, 3])
    lengths = [dice.randint(low, high) // CENTIMETRE * CENTIMETRE - kerf for _ in range(kinds)]
    counts = [1] * kinds
    for _ in range(wanted - kinds):
        counts[dice.randrange(kinds)] += 1
    if sort < 2:
        stock = [(dice.choice([2000, 3000, 6000]), None, 1)]
    elif sort == 2:
        stock = [(length, None, length) for length in dice.sample([2000, 2500, 3000, 4000, 6000], 3)]
    elif sort == 3:
        stock = [(2000, None, dice.randint(190, 230)), (3000, None, dice.randint(280, 330)), (6000, None, dice.randint(540, 640))]
    elif sort == 4:
        stock = [(dice.randint(1510, 2900), dice.randint(1, 3), 0), (3000, None, 300), (6000, None, dice.randint(560, 620))]
    elif sort == 5:
        # Some on hand, and no prices: the length counts.
        lengths_of = dice.sample([2000, 2500, 3000, 4000, 6000], 3)
        stock = [(length, dice.choice([None, dice.randint(1, 8)]), length) for length in lengths_of[:2]]
        stock.append((lengths_of[2], None, lengths_of[2]))
    else:
        stock = [(length, dice.choice([None, dice.randint(1, 8)]), dice.randint(80, 120) * length // 1000) for length in dice.sample([1600, 2500, 3000, 4000, 6000], 2)]
        stock.append((2000, None, dice.randint(180, 230)))
    return {
        "pieces": list(zip(lengths, counts)),
        "stock": stock,
        "priced": sort in (3, 4, 6),
        "kerf": kerf,
        "end_waste": dice.choice([0, 0, 5, 20]),
    }


def main():
    dice = random.Random(20)
    solved = number = 0
    # To a file of its own: HiGHS writes its name to standard output.
    with open(sys.argv[1], "w") as out:
        orders = []
        while solved < COUNT:
            order = draw(number, dice)
            number += 1
            order["least"] = solve(order)
            if order["least"] is not None:
                solved += 1
                orders.append(json.dumps(order))
            print(solved, number, file=sys.stderr)
        head = {"solver": "HiGHS " + highspy.Highs().version(), "seconds": SECONDS, "drawn": number, "proved": solved}
        out.write(json.dumps(head)[:-1] + ', "orders": [\n' + ",\n".join(orders) + "\n]}\n")


main()
