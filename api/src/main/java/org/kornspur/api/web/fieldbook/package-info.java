/**
 * The field book: what multipliers and inspectors write down beside the crop, on a phone. Each page
 * is a form that works by itself; a script keeps what was typed while the network is away, counts
 * taps, and sends each fact once.
 */
package org.kornspur.api.web.fieldbook;
