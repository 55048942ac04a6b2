/** How lots, crops and facts are named outside: URIs, GS1 keys, event ids. */
package org.kornspur.api.export.identity;
