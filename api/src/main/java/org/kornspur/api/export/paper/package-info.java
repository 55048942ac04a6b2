/**
 * Papers to keep: the dossier of a crop or lot and the result of a recall drill as PDF, with fonts
 * embedded, tagged, and the same content beside them as data.
 */
package org.kornspur.api.export.paper;
