"""The STEP document of exact solids: AP242, one named and coloured component a part (OCP)."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from OCP.IFSelect import IFSelect_ReturnStatus
from OCP.Interface import Interface_Static
from OCP.Message import Message
from OCP.Quantity import Quantity_Color, Quantity_TypeOfColor
from OCP.STEPCAFControl import STEPCAFControl_Writer
from OCP.TCollection import TCollection_ExtendedString
from OCP.TDataStd import TDataStd_Name
from OCP.TDocStd import TDocStd_Document
from OCP.XCAFDoc import XCAFDoc_ColorType, XCAFDoc_DocumentTool

from scantling.geometry.exact import exact_placed, exact_solid
from scantling.geometry.step import StepPart


def write_document(parts: Sequence[StepPart], path: Path) -> None:
    """Build every part and write the file; raises OSError when it cannot be written."""
    Message.DefaultMessenger_s().ChangePrinters().Clear()
    document = TDocStd_Document(TCollection_ExtendedString("XmlXCAF"))
    shapes = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    colours = XCAFDoc_DocumentTool.ColorTool_s(document.Main())
    for part in parts:
        solid = exact_placed(exact_solid(part.recipe), part.placement)
        label = shapes.AddShape(solid, False)
        TDataStd_Name.Set_s(label, TCollection_ExtendedString(part.name, True))
        red, green, blue = (c / 255 for c in part.colour)
        colour = Quantity_Color(red, green, blue, Quantity_TypeOfColor.Quantity_TOC_sRGB)
        colours.SetColor(label, colour, XCAFDoc_ColorType.XCAFDoc_ColorSurf)
    writer = STEPCAFControl_Writer()
    Interface_Static.SetCVal_s("write.step.schema", "AP242DIS")
    writer.SetNameMode(True)
    writer.SetColorMode(True)
    writer.Transfer(document)
    if writer.Write(str(path)) != IFSelect_ReturnStatus.IFSelect_RetDone:
        raise OSError(f"the STEP file could not be written to {path}")
    _settle_header(path)


def _settle_header(path: Path) -> None:
    """Take the hour of writing out of the file, so that equal pieces give equal files."""
    name = "FILE_NAME('piece.step','1970-01-01T00:00:00',(''),(''),'scantling','scantling','');"
    text = path.read_text(encoding="latin-1")
    start = text.index("FILE_NAME(")
    end = text.index(");", start) + 2
    path.write_text(text[:start] + name + text[end:], encoding="latin-1")
