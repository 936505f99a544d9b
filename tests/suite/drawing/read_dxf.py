# Reads a DXF file with ezdxf and prints what the test compares, as JSON.
import json
import sys

import ezdxf

document = ezdxf.readfile(sys.argv[1])
auditor = document.audit()
model = document.modelspace()
layout = next(document.layout(name) for name in document.layout_names() if name != "Model")


def subject(entity):
    if entity.has_xdata("RAFTERGLOW"):
        return entity.get_xdata("RAFTERGLOW")[0].value
    return None


inserts = [
    {
        "block": insert.dxf.name,
        "layer": insert.dxf.layer,
        "at": list(insert.dxf.insert)[:2],
        "scale": insert.dxf.xscale,
        "turn": insert.dxf.rotation,
        "subject": subject(insert),
        "attributes": {a.dxf.tag: [a.dxf.text, bool(a.is_invisible)] for a in insert.attribs},
    }
    for insert in model.query("INSERT")
]
views = [v for v in layout.query("VIEWPORT") if v.dxf.id != 1]


def on_paper(view, point):
    return list(view.get_transformation_matrix().transform(point))[:2]


types = {}
for space, entities in (("model", model), ("paper", layout)):
    for entity in entities:
        key = f"{space} {entity.dxftype()}"
        types[key] = types.get(key, 0) + 1

print(
    json.dumps(
        {
            "errors": [e.message for e in auditor.errors],
            "fixes": [f.message for f in auditor.fixes],
            "version": document.dxfversion,
            "units": document.header["$INSUNITS"],
            "metric": document.header["$MEASUREMENT"],
            "layers": sorted(layer.dxf.name for layer in document.layers),
            "layout": layout.name,
            "types": types,
            "inserts": inserts,
            "first_insert_on_paper": [on_paper(v, inserts[0]["at"] + [0]) for v in views],
            "texts": [
                [t.dxf.text, t.dxf.height, list(t.dxf.insert)[:2], t.dxf.rotation]
                for t in model.query("TEXT")
            ],
            "paper_texts": [
                [t.dxf.text, t.dxf.height, list(t.dxf.insert)[:2], t.dxf.rotation]
                for t in layout.query("TEXT")
            ],
            "hatches": [
                [h.dxf.layer, h.dxf.solid_fill, len(h.paths), subject(h)]
                for h in model.query("HATCH")
            ],
            "lines": [
                [line.dxf.layer, line.dxf.linetype, line.dxf.lineweight]
                + [list(line.dxf.start)[:2], list(line.dxf.end)[:2]]
                for line in model.query("LINE")
            ],
        }
    )
)
