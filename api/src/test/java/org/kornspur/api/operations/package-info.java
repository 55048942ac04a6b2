/** What whoever runs a site takes from the project: alert rules, a dashboard, manifests. */
package org.kornspur.api.operations;
