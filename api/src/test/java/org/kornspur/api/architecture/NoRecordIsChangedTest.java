package org.kornspur.api.architecture;

import static com.tngtech.archunit.core.domain.JavaCall.Predicates.target;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.assignableTo;
import static com.tngtech.archunit.core.domain.properties.HasName.Predicates.nameStartingWith;
import static com.tngtech.archunit.core.domain.properties.HasOwner.Predicates.With.owner;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.methods;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.core.domain.JavaClasses;
import jakarta.ws.rs.DELETE;
import jakarta.ws.rs.PATCH;
import jakarta.ws.rs.PUT;
import org.apache.kafka.clients.admin.Admin;
import org.junit.jupiter.api.Test;

/**
 * There is no path that updates or deletes a record. What may change is who comes in, and the
 * printed name that lies apart from what was signed.
 *
 * <p>Source: 21 CFR 11.10(e), record changes shall not obscure previously recorded information.
 */
class NoRecordIsChangedTest {
  private static final JavaClasses PROGRAM = MainClasses.ALL;

  @Test
  void noAddressTakesPutPatchOrDeleteButThoseOfPeopleAndLogIns() {
    methods()
        .that()
        .areAnnotatedWith(PUT.class)
        .or()
        .areAnnotatedWith(PATCH.class)
        .or()
        .areAnnotatedWith(DELETE.class)
        .should()
        .beDeclaredInClassesThat()
        .haveNameMatching(".*\\.(PeopleResource|SessionResource)")
        .check(PROGRAM);
  }

  @Test
  void nothingAsksTheBrokerToDeleteRecordsOrTopics() {
    noClasses()
        .should()
        .callMethodWhere(
            target(owner(assignableTo(Admin.class))).and(target(nameStartingWith("delete"))))
        .check(PROGRAM);
  }
}
