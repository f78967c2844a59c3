#include "ui/panels/bin/bin_rows.h"

#include "core/tasting/panel_texts.h"
#include "ui/panels/blind/blind_desk.h"
#include "ui/panels/drawing_values.h"
#include "ui/text/border.h"
#include "ui/text/words.h"

#include <QCoreApplication>

#include <array>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

QString say(const char* text) {
    return QCoreApplication::translate("Bin", text);
}

QString nameOf(const std::string& name) {
    return name.empty() ? say("no name yet") : fromCore(name);
}

void addIfAny(QStringList& parts, int count, const char* one, const char* many) {
    if (count > 0) parts << counted(count, say(one), say(many));
}

} // namespace

std::vector<BinRow> binRows(WorkbookSession& book) {
    std::vector<BinRow> rows;
    const auto now = book.clock().now();
    const auto bin = book.book().bin();
    for (const auto& drink : bin.drinks) {
        BinRow row{drink.id, nameOf(drink.name), {}};
        row.row.title = row.name;
        row.row.mark = StateMark::SetAside;
        row.row.aside = drink.form == history::DrinkForm::Preparation ? say("preparation") : say("drink");
        const auto* summary = book.summary(drink.id);
        QStringList detail;
        if (summary != nullptr && summary->revisions > 0)
            detail << counted(summary->revisions, say("revision"), say("revisions"));
        for (const auto& text : {drink.menuName, drink.brief})
            if (!text.empty()) detail << fromCore(text);
        row.row.detail = detail.join(u" · "_s);
        rows.push_back(std::move(row));
    }
    for (const auto& draft : bin.drafts) {
        const auto* summary = book.summary(draft.drink);
        const QString drink = summary != nullptr ? nameOf(summary->name) : say("another drink");
        BinRow row{
            draft.id, draft.name.empty() ? say("the draft of %1").arg(drink) : fromCore(draft.name), {}};
        row.row.title = row.name;
        row.row.mark = StateMark::SetAside;
        row.row.aside = say("draft");
        row.row.detail = say("of %1, saved %2").arg(drink, dayText(draft.saved, now));
        rows.push_back(std::move(row));
    }
    for (const auto& ingredient : book.book().binnedIngredients()) {
        BinRow row{ingredient.id, nameOf(ingredient.name), {}};
        row.row.title = row.name;
        row.row.aside = say("larder");
        rows.push_back(std::move(row));
    }
    for (const auto& panel : book.book().panels()) {
        if (!panel.binned) continue;
        BinRow row{panel.id, nameOf(panel.name), {}};
        row.row.title = row.name;
        row.row.mark = StateMark::SetAside;
        row.row.aside = say("blind panel");
        row.row.detail = fromCore(tasting::kindName(panel.kind)) + u" · "_s + stateWords(panel);
        rows.push_back(std::move(row));
    }
    return rows;
}

void bringBack(WorkbookSession& book, const BinRow& row) {
    if (const auto* drink = std::get_if<base::DrinkId>(&row.what)) {
        auto stored = book.book().drink(*drink);
        if (!stored) return;
        stored->binned = false;
        book.saveDrink(*stored);
    } else if (const auto* draft = std::get_if<base::DraftId>(&row.what)) {
        book.book().binDraft(*draft, false);
        book.reloadShelf();
    } else if (const auto* ingredient = std::get_if<base::IngredientId>(&row.what)) {
        book.book().binIngredient(*ingredient, false);
        book.reloadLarder();
    } else if (const auto* panel = std::get_if<base::PanelId>(&row.what)) {
        book.book().binPanel(*panel, false);
    }
}

QString binCountWords(const std::vector<BinRow>& rows) {
    std::array<int, 4> counts{};
    for (const auto& row : rows)
        ++counts[row.what.index()];
    QStringList parts;
    addIfAny(parts, counts[0], "drink", "drinks");
    addIfAny(parts, counts[1], "draft", "drafts");
    addIfAny(parts, counts[2], "thing of the larder", "things of the larder");
    addIfAny(parts, counts[3], "panel", "panels");
    return parts.join(u", "_s);
}

QString emptiedWords(const store::EmptiedBin& emptied) {
    QStringList parts;
    addIfAny(parts, emptied.drinks, "drink", "drinks");
    addIfAny(parts, emptied.drafts, "draft", "drafts");
    addIfAny(parts, emptied.revisions, "revision", "revisions");
    addIfAny(parts, emptied.tastings, "tasting", "tastings");
    addIfAny(parts, emptied.photos, "photo", "photos");
    addIfAny(parts, emptied.panels, "panel", "panels");
    addIfAny(parts, emptied.ingredients, "thing of the larder", "things of the larder");
    return parts.join(u", "_s);
}

QString stillNeededWords(const store::StillNeeded& needed) {
    using By = store::StillNeeded::By;
    const QString name = nameOf(needed.name);
    const QString by = fromCore(needed.by);
    switch (needed.kind) {
    case By::Revision:
        return say("%1 stays: revision %2 of %3 was made with it.")
            .arg(name)
            .arg(needed.number)
            .arg(nameOf(needed.by));
    case By::Draft:
        return say("%1 stays: a draft of %2 names it.").arg(name, nameOf(needed.by));
    case By::Lot:
        return say("%1 stays: what was made of it on %2 is on record.").arg(name, by);
    case By::Ingredient:
        return say("%1 stays: %2 of the larder rests on it.").arg(name, by);
    case By::Panel:
        return say("%1 stays: the panel “%2” tasted it.").arg(name, by);
    }
    return {};
}

} // namespace stillroom::ui
