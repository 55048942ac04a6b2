package org.kornspur.api.security.login;

import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.Role;

@Schema(description = "Who asks, and what they may do")
public record AccountView(
    @Schema(examples = "quality") String personId,
    String printedName,
    Set<Role> roles,
    @Schema(nullable = true, description = "Null for who is bound to none") String enterpriseId,
    @Schema(description = "Actions of the table of permissions") List<Permission> may,
    @Schema(
            nullable = true,
            description =
                "To be sent with each change that goes with the cookie: header X-CSRF-Token, or"
                    + " field csrfToken of a form; null without a cookie")
        String csrfToken) {

  public static AccountView of(Caller caller, Sessions sessions) {
    return new AccountView(
        caller.personId(),
        caller.printedName(),
        new TreeSet<>(caller.roles()),
        caller.enterpriseId().orElse(null),
        Arrays.stream(Permission.values()).filter(caller::may).toList(),
        caller.proof() == Caller.Proof.SESSION ? sessions.formToken(caller) : null);
  }
}
