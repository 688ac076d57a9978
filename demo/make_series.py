#!/usr/bin/env python3
"""Writes demo/series.txt: an invented series of boxes, the same at every run.

Every bank, town, box and find in it is made up; the shares of dates follow the catalogue's mintages with an invented
decline by age. Run from the project's root: python3 demo/make_series.py
"""
import csv
import datetime as dt
import random

rng = random.Random(20260101)


def issues(series, metals=None):
    rows = []
    for row in csv.DictReader(open(f"catalog/series/{series}.csv", encoding="utf-8")):
        if row["issued"] == "circulation" and not row["kind"]:
            mint = "" if row["mint"] in ("P", "-") else row["mint"].lower()
            year = int(row["year"])
            mintage = int(row["mintage"]) if row["mintage"].isdigit() else 30_000_000
            rows.append((f"{year}{mint}", mintage * 0.965 ** (2026 - year), year))
    return rows


WHEAT = issues("us-cent-lincoln-wheat")
INDIAN = issues("us-cent-indian-head")
CANADA = [row for row in issues("ca-cent-small") if row[2] > 1936]
JEFFERSON = [row for row in issues("us-nickel-jefferson") if row[2] < 1960]
BUFFALO = issues("us-nickel-buffalo")
MERCURY = issues("us-dime-mercury")
ROOSEVELT = [row for row in issues("us-dime-roosevelt") if row[2] < 1965]
KENNEDY = [row for row in issues("us-half-kennedy") if row[2] < 1971]
FRANKLIN = issues("us-half-franklin")

SOURCES = [
    # bank, branch, wrap, mean wheat cents per box, size of the negative binomial
    ("Harbour & Mill Savings", "Tarnhollow", "machine", 7.0, 2.0),
    ("Pinefield Credit Union", "Old Ferry Road", "machine", 11.0, 1.6),
    ("First Example Bank", "Quarrytown", "customer", 16.0, 1.1),
]


def pick(rows):
    return rng.choices(rows, weights=[row[1] for row in rows])[0][0]


def negative_binomial(mean, size):
    rate = rng.gammavariate(size, mean / size)
    count, limit, product = 0, 2.718281828 ** -rate, rng.random()
    while product > limit:
        count += 1
        product *= rng.random()
    return count


def state(year):
    words = []
    if rng.random() < 0.35:
        words.append(rng.choice(["g6", "vg8", "f12", "f15", "vf20", "vf30", "xf40"] if int(year[:4]) < 1940 else
                                ["vf20", "vf30", "xf40", "xf45", "au50", "au55"]))
    if rng.random() < 0.06:
        words.append(rng.choice(["cleaned", "corroded", "scratched", "bent", "verdigris"]))
    if rng.random() < 0.03:
        words.append(rng.choice(["rpm", "ddo", "bie", "lam", "clip"]))
    return " ".join(words)


def find(rows, prefix=""):
    date = pick(rows)
    if date == "1938d" and rows in (JEFFERSON, BUFFALO):
        # Denver struck both designs that year; a line must say which.
        date += " monticello" if rows is JEFFERSON else " buffalo"
    return " ".join(word for word in (prefix, date, state(date) if not prefix else "") if word)


searched = []

TILL = [
    "@branch Harbour & Mill Savings; branch Tarnhollow; days mon tue wed thu fri; does gives takes; lead 3; km 6.5; way N; note orders by noon",
    "@branch Pinefield Credit Union; branch Old Ferry Road; days mon tue wed thu fri sat; does gives takes; lead 2; km 11; way NE",
    "@branch First Example Bank; branch Quarrytown; days tue wed thu fri; does gives; km 18; way E; note customer rolls when they have them",
    "@branch Lower Ferry Mutual; branch Wharf Street; days mon wed fri; does takes; km 9; way NW; note rolls only",
    "@branch Corner Market; branch counting machine; days mon tue wed thu fri sat sun; does takes; percent 11.9; km 2; way S; closed; note taken out in spring",
]


def weekday(day, allowed):
    while day.weekday() not in allowed:
        day += dt.timedelta(days=1)
    return day


def till(searched):
    """Branches, trips, and the way back of boxes searched; with a generator of its own, so that the rest stays."""
    own = random.Random(7)
    lines = list(TILL)
    last = searched[-1][1]
    for i in range(0, len(searched) - 8, 6):
        names = [name for name, _ in searched[i:i + 6]]
        day = searched[min(i + 5, len(searched) - 1)][1] + dt.timedelta(days=3)
        loop = i % 18 == 12
        where = "Pinefield Credit Union, Old Ferry Road" if loop else "Lower Ferry Mutual, Wharf Street"
        day = weekday(day, range(0, 6) if loop else (0, 2, 4))
        lines.append(f"@back {', '.join(names)}; day {day}; to {where}")
        lines.append(f"@spent BANK; day {day}; minutes {own.randint(45, 80)}; km {own.uniform(19, 34):.1f}; "
                     f"fuel {own.uniform(2, 4.5):.2f}; where {where}")
        lines.append(f"@spent ROLL; day {day - dt.timedelta(days=1)}; minutes {own.randint(60, 150)}")
        if i == 12:
            lines.append(f"@cash OUTSIDE SHORT; amount 0.50; day {day}; where {where}; what return of {day} short")
    lines.append(f"@cash OUTSIDE CASH; amount 60.00; day {weekday(last, range(0, 5))}; where Harbour & Mill Savings, Tarnhollow; what for the next boxes")
    placed = weekday(last + dt.timedelta(days=4), range(0, 5))
    due = weekday(placed + dt.timedelta(days=3), range(0, 5))
    lines.append(f"@order Harbour & Mill Savings, Tarnhollow; coins nickel; boxes 1; day {placed}; due {due}")
    return lines


def box(out, day, name, denomination, watch, source, finds, rolls, sisters="", cluster=None):
    bank, branch, wrap = source[:3]
    searched.append((name, day))
    seal = f"; sisters {sisters}" if sisters else ""
    picked = day - dt.timedelta(days=rng.randint(1, 6))
    out.append(f"@at {day.isoformat()}T{rng.randint(17, 19):02d}:{rng.randint(0, 59):02d}:00Z {rng.randint(200, 420)}")
    out.append(f"@hunt {name}; denomination {denomination}; rolls {rolls}; watch {watch}; bank {bank}; branch {branch}; "
               f"wrap {wrap}; stamp {rng.randint(10000, 99999)}; picked {picked.isoformat()}{seal}")
    by_roll = {}
    for line in finds:
        roll = rng.randint(1, rolls) if cluster is None or rng.random() < 0.35 else rng.randint(*cluster)
        by_roll.setdefault(roll, []).append(line)
    visible = rng.randint(40, 60)
    out.append(f"e {sum(1 for _ in finds if rng.random() < visible / (rolls * 50.0))}/{visible}")
    waiting = 0
    for roll in range(1, rolls + 1):
        waiting += 1
        if roll in by_roll:
            out.append(", ".join(["+"] * (waiting - 1) + ["+ " + by_roll[roll][0]] + by_roll[roll][1:]))
            waiting = 0
        if rng.random() < 0.02:
            if waiting:
                out.append(", ".join(["+"] * waiting))
                waiting = 0
            out.append(f"r{roll} {50 + rng.choice([-2, -1, 1])}" if denomination == "cent" else f"r{roll}")
    if waiting:
        out.append(", ".join(["+"] * waiting))
    if denomination == "cent" and rng.random() < 0.7:
        out.append(f'w {rng.uniform(900, 1900):.1f}g "copper pile"')
    out.append("finish")


SILVER = {"dime": 2.60, "half": 12.00}
STEPS = (("f12", 0.7), ("vf20", 1.0), ("xf40", 1.9), ("au50", 3.2), ("ms63", 9.0))


def prices(out):
    """Invented prices for most dates found, and a few coins owned before, so that values can be seen at once; with a
    generator of its own, so that the rest stays."""
    own = random.Random(11)
    lines = ["@place Drawer 1; capacity 200", "@place Tube of wheat cents; parent 1; capacity 50",
             "@coin 1909 vdb xf40; how bought; from a coin show; day 2026-01-17; price 18.00; to 1",
             "@coin 1931s f12; how owned; from an aunt; day 2025-09-01; to 1",
             "@coin x3 41 vf20; how owned; from an aunt; day 2025-09-01; to 2"]
    find, coins, seen = 0, "cent", set()
    for line in out:
        if line.startswith("@hunt "):
            coins = line.split("denomination ")[1].split(";")[0]
        if line[0] in "@#!erwf":
            continue
        for part in line.split(","):
            words = part.replace("+", " ").split()
            if not words:
                continue
            find += 1
            if words[0].startswith("x"):
                words = words[1:]
            date = words[0]
            if date in ("ca", "dime") or (coins, date) in seen or len(date) < 4:
                continue
            seen.add((coins, date))
            if own.random() < 0.25:
                continue
            old = max(0, 1960 - int(date[:4]))
            base = SILVER.get(coins, 0.12 + 0.004 * old ** 1.5) * own.uniform(0.8, 1.25)
            if date.endswith("s"):
                base *= 1.8
            shown, least = [], 0.05
            for grade, times in STEPS:
                least = max(least + 0.01, base * times * own.uniform(0.85, 1.18))
                shown.append(f"price {grade} {least:.2f}")
            lines.append(f"@prices coin f{find}.1; {'; '.join(shown)}; note my own, invented")
    lines += ["@prices coin own.1; price vf20 12.00; price xf40 18.00; price ms63 45.00",
              "@prices coin own.2; price g4 55.00; price f12 72.00; price xf40 95.00",
              "@metal silver; amount 31.00; unit oz t"]
    return lines


def main():
    out = ["# The demo series. Everything in it is invented: banks, towns, boxes, seals, dates and finds.",
           "# Made by demo/make_series.py; edit that, not this.",
           "@opening cent wheat 12 30000 118",
           "@album Wheat cents: series us-cent-lincoln-wheat; one per date and mint",
           "@album Canadian small cents: series ca-cent-small; years 1937-1967; one per date",
           "@album Old nickels: denomination nickel; country US; years 1938-1959; one per date and mint"]
    day = dt.date(2025, 9, 6)
    number = 12
    for week in range(34):
        source = SOURCES[rng.choices([0, 1, 2], weights=[5, 4, 2])[0]]
        number += 1
        wheat = negative_binomial(source[3], source[4])
        finds = [find(WHEAT) for _ in range(wheat)]
        finds += [find(CANADA, "ca") for _ in range(negative_binomial(9, 1.5))]
        finds += [find(INDIAN) for _ in range(1 if rng.random() < 0.08 else 0)]
        cluster = (22, 31) if number == 31 else None
        if number == 31:
            finds += [find(WHEAT) for _ in range(31)]
        rng.shuffle(finds)
        box(out, day, f"Box {number}", "cent", "wheat,canadian,indian", source, finds, 50,
            sisters=f"week {week // 2}" if week % 2 == 0 or week % 3 == 0 else "", cluster=cluster)
        if week % 5 == 2:
            finds = [find(JEFFERSON) for _ in range(negative_binomial(16, 3))]
            finds += [find(BUFFALO) for _ in range(negative_binomial(1.4, 1))]
            rng.shuffle(finds)
            box(out, day + dt.timedelta(days=1), f"Nickels {week // 5 + 1}", "nickel", "old-nickels,war,buffalo",
                SOURCES[1], finds, 50)
        if week % 9 == 4:
            finds = [find(ROOSEVELT) for _ in range(negative_binomial(1.2, 1))]
            finds += [find(MERCURY) for _ in range(1 if rng.random() < 0.2 else 0)]
            box(out, day + dt.timedelta(days=2), f"Dimes {week // 9 + 1}", "dime", "silver", SOURCES[0], finds, 50)
        if week % 11 == 6:
            finds = [find(KENNEDY) for _ in range(negative_binomial(5, 0.8))]
            finds += [find(FRANKLIN) for _ in range(1 if rng.random() < 0.3 else 0)]
            box(out, day + dt.timedelta(days=2), f"Halves {week // 11 + 1}", "half", "silver", SOURCES[2], finds, 50)
        day += dt.timedelta(days=rng.choice([7, 7, 14]))
        if week == 24:
            out.append("@accept")
    out += till(searched)
    # The last hunt is still under way, so that the demo opens on a Mat with something to do.
    out += [f"@at {day.isoformat()}T18:10:00Z 45",
            "@hunt Box 47 and 48; boxes Box 47, Box 48; denomination cent; rolls 50; watch wheat,canadian,indian; "
            f"bank Harbour & Mill Savings; branch Tarnhollow; wrap machine; stamp 55102; picked {day.isoformat()}; sisters last week",
            "e 2/52", "+ 44", "+", "+ 57d xf40, ca 61", "+, + x3 56d vf20", "r5 49", "+ 36d rpm vf30 bn \"notch under the D\"", "+, +, + 19s g6",
            "! the light was better here", "+ 43 vf20 ender", "+", "+ dime 1964 vf30", "+, + 1972 ddo au55"]
    out += prices(out)
    open("demo/series.txt", "w", encoding="utf-8").write("\n".join(out) + "\n")
    print(len(out), "lines")


main()
