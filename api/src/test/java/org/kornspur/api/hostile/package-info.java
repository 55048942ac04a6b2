/** Input meant to do harm, by every way in: it is answered, and nothing is lost. */
package org.kornspur.api.hostile;
