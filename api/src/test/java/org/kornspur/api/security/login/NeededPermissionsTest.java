package org.kornspur.api.security.login;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaFieldAccess;
import com.tngtech.archunit.core.domain.JavaModifier;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.kornspur.api.architecture.MainClasses;
import org.kornspur.api.security.Permission;
import org.kornspur.ingest.contract.FactType;

/** The table of permissions holds no line that nothing asks for. */
class NeededPermissionsTest {

  @Test
  void eachPermissionIsNeededByAnAddressOrAskedForInTheProgram() {
    Set<Permission> needed = EnumSet.noneOf(Permission.class);
    Address.all().stream().map(Address::needs).flatMap(Optional::stream).forEach(needed::add);
    Arrays.stream(FactType.values()).map(Permission::toPost).forEach(needed::add);
    MainClasses.ALL.stream()
        // they name every permission, and ask for none
        .filter(type -> !type.getName().startsWith(Permission.class.getName()))
        .flatMap(type -> type.getFieldAccessesFromSelf().stream())
        .map(JavaFieldAccess::getTarget)
        .filter(target -> target.getOwner().isEquivalentTo(Permission.class))
        .filter(
            target ->
                target.resolveMember().stream()
                    .anyMatch(field -> field.getModifiers().contains(JavaModifier.ENUM)))
        .map(target -> Permission.valueOf(target.getName()))
        .forEach(needed::add);

    assertThat(needed).containsExactlyInAnyOrder(Permission.values());
  }
}
