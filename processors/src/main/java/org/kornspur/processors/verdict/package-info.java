/** What a gate can say of a crop or lot: the gates by name, verdicts, and measured values. Pure. */
package org.kornspur.processors.verdict;
