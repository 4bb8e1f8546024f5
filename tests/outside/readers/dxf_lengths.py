#!/usr/bin/python3
"""Reads a DXF file with ezdxf (MIT, Debian's python3-ezdxf) and prints what it makes of it.

A line for each layer: name, colour, number of entities, total length, and the box round them, in
drawing units. Ends with the release and what the reader's own audit finds wrong.
"""
import collections
import math
import sys

import ezdxf


def pieces_of(entity):
    if entity.dxftype() == "POLYLINE":
        yield from entity.virtual_entities()
    else:
        yield entity


def length_of(piece):
    if piece.dxftype() == "LINE":
        return piece.dxf.start.distance(piece.dxf.end)
    if piece.dxftype() == "ARC":
        sweep = (piece.dxf.end_angle - piece.dxf.start_angle) % 360
        return math.radians(sweep) * piece.dxf.radius
    raise SystemExit("an entity that was not expected: " + piece.dxftype())


def ends_of(piece):
    if piece.dxftype() == "LINE":
        return [piece.dxf.start, piece.dxf.end]
    return [piece.start_point, piece.end_point]


def main():
    document = ezdxf.readfile(sys.argv[1])
    counts, lengths = collections.Counter(), collections.Counter()
    points = collections.defaultdict(list)
    for entity in document.modelspace():
        layer = entity.dxf.layer
        counts[layer] += 1
        for piece in pieces_of(entity):
            lengths[layer] += length_of(piece)
            points[layer] += ends_of(piece)
    for layer in document.layers:
        name = layer.dxf.name
        if name not in counts:
            continue
        xs, ys = [p.x for p in points[name]], [p.y for p in points[name]]
        box = " ".join(f"{v:.4f}" for v in (min(xs), min(ys), max(xs), max(ys)))
        print(f"layer {name} {layer.dxf.color} {counts[name]} {lengths[name]:.4f} {box}")
    print("release", document.dxfversion)
    print("faults", len(document.audit().errors))


main()
