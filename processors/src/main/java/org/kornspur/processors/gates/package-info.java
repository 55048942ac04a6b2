/**
 * The gates: what is checked of a crop or a lot. Each class whose name ends in {@code Gate} is one
 * gate, a pure function of a dossier and a rulebook; every limit comes from the rulebook or from
 * the breeder's master data. A verdict is no certificate: the certification authority decides, on
 * samples drawn by accredited samplers and tested in accredited laboratories.
 */
package org.kornspur.processors.gates;
