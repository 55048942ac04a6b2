/** Which field bears which crop of a plan in one season, by the rules that its gates will ask. */
package org.kornspur.processors.plan.field;
