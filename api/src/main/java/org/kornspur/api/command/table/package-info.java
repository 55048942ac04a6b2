/** Tables that people sent: kept for as long as they look at them, looked at and recorded. */
package org.kornspur.api.command.table;
