"""Values to what is printed and exported: PDF from the drawings' own scenes, workbooks, CSV, DXF.

Everything is returned as bytes or text; nothing here touches a disk but to read its own fonts.
Heavy libraries are imported inside the functions that use them.
"""
