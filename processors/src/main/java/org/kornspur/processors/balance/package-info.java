/** Where the kilograms of lots went: masses that passed, accounts of lots, mass balance. Pure. */
package org.kornspur.processors.balance;
