/** A lot's history as provenance, in PROV-JSON. Pure mapping. */
package org.kornspur.api.export.prov;
