package org.kornspur.api.web.record;

import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.util.List;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.plan.ApprovedFields;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.web.form.PreviewLine;
import org.kornspur.api.web.form.PreviewLine.Weight;
import org.kornspur.contract.FieldCropDeclared;

/**
 * What approved plans have to say of a crop before it is sown. Who may not read plans is told that
 * something speaks against it, and not what.
 */
@RequestScoped
class PlanWarnings {
  @Inject ApprovedFields approved;
  @Inject RequestWords words;
  @Inject CurrentCaller caller;

  List<PreviewLine> of(FieldCropDeclared declared) {
    boolean mayRead = caller.get().may(Permission.READ_PLANS);
    return approved.against(declared).stream()
        .map(
            conflict ->
                mayRead ? words.words().plain(conflict) : words.texts("record").of("planHidden"))
        .distinct()
        .map(text -> new PreviewLine(words.texts("record").of("plan"), text, Weight.BAD))
        .toList();
  }
}
