/** All records of a lot as one sortable table, for spreadsheets. Pure mapping. */
package org.kornspur.api.export.spreadsheet;
