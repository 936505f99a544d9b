# Reads DXF files with ezdxf and prints what the tests compare, as a JSON list.
import json
import sys

import ezdxf


def subject(entity):
    if entity.has_xdata("RAFTERGLOW"):
        return entity.get_xdata("RAFTERGLOW")[0].value
    return None


def flat(vector):
    return [vector[0], vector[1]]


def texts(layout):
    return [
        [t.dxf.text, t.dxf.height, flat(t.dxf.insert), t.dxf.rotation]
        for t in layout.query("TEXT")
    ]


def inserts(layout):
    return [
        {
            "block": insert.dxf.name,
            "layer": insert.dxf.layer,
            "at": flat(insert.dxf.insert),
            "scale": insert.dxf.xscale,
            "subject": subject(insert),
            "attributes": {
                a.dxf.tag: [a.dxf.text, bool(a.is_invisible)] for a in insert.attribs
            },
        }
        for insert in layout.query("INSERT")
    ]


def counts(layout):
    kinds = [entity.dxftype() for entity in layout]
    return {kind: kinds.count(kind) for kind in kinds}


def read(name):
    document = ezdxf.readfile(name)
    auditor = document.audit()
    model = document.modelspace()
    layout = next(
        document.layout(name) for name in document.layout_names() if name != "Model"
    )
    # The first viewport is the sheet itself.
    views = [v for v in layout.query("VIEWPORT") if v.dxf.id != 1]
    found = inserts(model)
    first = found[0]["at"] + [0] if found else [0, 0, 0]
    return {
        "errors": [e.message for e in auditor.errors],
        "fixes": [f.message for f in auditor.fixes],
        "version": document.dxfversion,
        "units": document.header["$INSUNITS"],
        "metric": document.header["$MEASUREMENT"],
        "layers": sorted(layer.dxf.name for layer in document.layers),
        "layout": layout.name,
        "model": counts(model),
        "paper": counts(layout),
        "inserts": found,
        "first_insert_on_paper": [
            flat(view.get_transformation_matrix().transform(first)) for view in views
        ],
        "texts": texts(model),
        "paper_texts": texts(layout),
        "hatches": [
            [h.dxf.layer, h.dxf.solid_fill, len(h.paths), subject(h)]
            for h in model.query("HATCH")
        ],
        "lines": [
            [line.dxf.layer, line.dxf.linetype, line.dxf.lineweight]
            + [flat(line.dxf.start), flat(line.dxf.end)]
            for line in model.query("LINE")
        ],
    }


print(json.dumps([read(name) for name in sys.argv[1:]]))
