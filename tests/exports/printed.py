"""What stands on printed pages, as PDFium and an XML reader find it; files are told by their endings.

For each PDF its pages: size in mm, every path as rows of points in mm from the upper left corner, the text, and the QR
codes that are read off a picture of the page. For each SVG its size, its paths by class, and its texts.
"""

import ctypes
import json
import sys
import xml.etree.ElementTree as xml

import pypdfium2 as pdfium
import pypdfium2.raw as raw
import zxingcpp

MM = 25.4 / 72
DPI = 300


def points_of(page, high):
    """Rows of points of every path of a page; PDFium gives them in the path's own axes and the matrix beside them."""
    paths = []
    for index in range(raw.FPDFPage_CountObjects(page)):
        item = raw.FPDFPage_GetObject(page, index)
        if raw.FPDFPageObj_GetType(item) != raw.FPDF_PAGEOBJ_PATH:
            continue
        matrix = raw.FS_MATRIX()
        raw.FPDFPageObj_GetMatrix(item, matrix)
        width = ctypes.c_float()
        raw.FPDFPageObj_GetStrokeWidth(item, width)
        rows = []
        for step in range(raw.FPDFPath_CountSegments(item)):
            segment = raw.FPDFPath_GetPathSegment(item, step)
            x, y = ctypes.c_float(), ctypes.c_float()
            raw.FPDFPathSegment_GetPoint(segment, x, y)
            x, y = x.value, y.value
            at = [
                (matrix.a * x + matrix.c * y + matrix.e) * MM,
                high - (matrix.b * x + matrix.d * y + matrix.f) * MM,
            ]
            if raw.FPDFPathSegment_GetType(segment) == raw.FPDF_SEGMENT_MOVETO:
                rows.append([])
            rows[-1].append(at)
        paths.append({"rows": rows, "width": width.value * abs(matrix.a) * MM})
    return paths


def of_pdf(path):
    pages = []
    document = pdfium.PdfDocument(path)
    for page in document:
        wide, high = (side * MM for side in page.get_size())
        picture = page.render(scale=DPI / 72, grayscale=True).to_numpy()
        picture = picture.reshape(picture.shape[0], picture.shape[1])
        codes = zxingcpp.read_barcodes(picture, formats=zxingcpp.BarcodeFormat.QRCode)
        pages.append(
            {
                "size": [wide, high],
                "paths": points_of(page.raw, high),
                "text": page.get_textpage().get_text_range(),
                "codes": [code.text for code in codes],
            }
        )
    scaling = raw.FPDF_VIEWERREF_GetPrintScaling(document.raw)
    return {"file": path, "pages": pages, "scales": bool(scaling)}


def of_svg(path):
    root = xml.parse(path).getroot()
    space = "{http://www.w3.org/2000/svg}"
    paths = []
    for item in root.iter(f"{space}path"):
        rows = []
        for row in item.get("d").replace("Z", "").split("M")[1:]:
            rows.append([[float(n) for n in point.split()] for point in row.split("L")])
        paths.append({"name": item.get("class"), "rows": rows})
    return {
        "file": path,
        "size": [root.get("width"), root.get("height")],
        "box": [float(n) for n in root.get("viewBox").split()],
        "paths": paths,
        "texts": ["".join(item.itertext()) for item in root.iter(f"{space}text")],
    }


json.dump([of_pdf(p) if p.endswith(".pdf") else of_svg(p) for p in sys.argv[1:]], sys.stdout)
