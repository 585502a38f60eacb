"""Patterns that have what the demo has not: inches first, UK terms, names of sizes with digits."""

from __future__ import annotations

STUDIO = """\
name: Studio 7
units: in
terms: uk
copyright: © 2026 Studio 7
"""

MAT = """\
title: Mat No. 5
summary: A mat for 1 or 2 cups of 9 cm, in 3 sizes.
story: |
  Begun in 2024.

  Ours is 20 cm wide, in the size 2.
designers: [Ann Sand the 2nd]
version: "1.2"
published: 2026-05-04
changes:
  - version: "1.2"
    date: 2026-05-04
    text: Round 3 had 1 dc too many.
    rows: [mat.part-1-start-row]
    sizes: ["2"]
licence: CC BY 4.0
audience: adult
use: [home]
terms: uk
sizes:
  names: 1 (2, 3)
gauge:
  ground: {sts: 16½, rows: 18, over: 4 in, of: dc, hook: 4 mm}
  loose: {sts: 15, rows: 16, over: 10 cm, of: dc, hook: 5 mm}
yarn:
  main:
    label: Yarn No. 8 (invented)
    weight: light
    fibre: 100% cotton
    put_up: {length: 85 m, mass: 50 g}
    colours: [sand 1, kelp 2]
    also:
      - {label: Yarn 9 (invented), length: 170 m, mass: 100 g}
margin: 12 %
tail: 15 cm
swatches:
  - of: main
    mass: 20 g
    rows: |
      ch 25
      dc in 2nd ch from hook and in each ch across, turn
      ch 1, dc in each st across, turn
      rep last row 25 more times
notions:
  - {kind: button, amount: [1, 2, 3], size: 15 mm, at: front, note: 4 holes 2 cm deep}
  - {kind: ribbon, amount: 1, size: 60 cm}
care:
  wash: 40 °C
  note: Wash it before the 2nd use, at 3 cm in the drum.
video:
  url: https://video.example/mat
  length: "21:30"
  time_link: "?t={seconds}"
  shown_size: "2"
measurements:
  width: 20 (24, 27) cm
  length: 20 (24, 27) cm
counts:
  mat_sts: {across: width, gauge: ground, multiple: 6, plus: 1}
pieces:
  mat:
    title: Mat 1
    make: 1 (2, 2)
    worked: flat rows
    gauge: ground
    sections:
      - title: Part 1
        colour: sand 1
        video: "7:40"
        note: |
          Leave {mat_sts + 2} sts free, that is {width / 2}.

          Use the 4 mm hook. Leave a 15 cm tail, and 20 to 25 cm for the 2nd.
        row_notes:
          Start row: {note: "There are {mat_sts} of them.", video: "8:05"}
        rows: |
          ch {mat_sts + 1}
          Start row: dc in 2nd ch from hook and in each ch across, turn ({mat_sts} dc)
          ch 1, dc in each st across, turn ({mat_sts} dc)
          rep last row until piece measures 4 in (10 cm)
          ch 1, dc in each st across, turn
          rep last row until piece measures {length}
      - title: Part 2
        colour: kelp 2
        sizes: ["2", "3"]
        rows: |
          ch 1, dc in each st across, turn
          rep last row 2 (2, 4) more times
      - title: Edge
        colour: sand 1
        rows: |
          ch 1, dec 4 dc evenly across, turn
          ch 1, dc in each st across, turn
          fasten off, leaving a 30 cm tail
assembly:
  - Sew 2 buttons on with 40 cm (15¾ in) of yarn, 5 inches apart.
finishing:
  - Weave in all 4 ends; trim to {width / 10}.
"""
