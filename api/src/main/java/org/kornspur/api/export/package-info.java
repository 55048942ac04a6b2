/**
 * What leaves in the form of open standards, and comes back in it: EPCIS 2.0, PROV-JSON,
 * spreadsheets, label content. The packages below this one map and know no server; the classes here
 * serve what they make.
 */
package org.kornspur.api.export;
