/**
 * Facts as EPCIS 2.0 events and back, in JSON-LD. Pure mapping.
 *
 * <p>Source: GS1, "EPCIS Standard 2.0" (2022) and "Core Business Vocabulary Standard 2.0" (2022).
 */
package org.kornspur.api.export.epcis;
