/**
 * Reads workbooks of Office Open XML (ECMA-376) row by row, within limits that hold while it reads:
 * a workbook that unpacks to more than memory holds, names a cell in column ZZZZZZ, or draws on
 * other files is refused before it costs anything. Only the XML parser of the Java platform is
 * used, with entities and document types switched off.
 */
package org.kornspur.ingest.sheet;
