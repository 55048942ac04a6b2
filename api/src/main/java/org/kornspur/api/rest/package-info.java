/** The addresses of the interface. Each class holds one group of them and decides nothing. */
package org.kornspur.api.rest;
