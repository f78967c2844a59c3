#include "ui/panels/blind/choose_product.h"

#include "ui/dialogs/pick_dialog.h"
#include "ui/panels/blind/blind_desk.h"
#include "ui/session/desk.h"
#include "ui/text/border.h"
#include "ui/text/revision_label.h"
#include "ui/text/words.h"

#include <algorithm>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

struct Choice {
    ProductChoice product;
    std::optional<base::DrinkId> drink; // whose revisions are asked for next
    PickRow row;
};

// Newest first; those already poured are left out.
std::vector<Choice> revisionsOf(const BlindDesk& desk, const store::Workbook& book, base::DrinkId id,
                                base::Instant now, const QString& before) {
    std::vector<Choice> choices;
    const auto drink = book.drink(id);
    const auto form = drink ? drink->form : history::DrinkForm::Drink;
    auto revisions = book.revisions(id);
    std::reverse(revisions.begin(), revisions.end());
    const auto& taken = const_cast<BlindDesk&>(desk).wish().products;
    for (const auto& revision : revisions) {
        if (std::find(taken.begin(), taken.end(), revision.id) != taken.end()) continue;
        const auto mark = drink && drink->house == revision.id ? StateMark::House : StateMark::Kept;
        choices.push_back({{revision.id},
                           std::nullopt,
                           {mark, before + revisionLabel(form, revision.number), dayText(revision.kept, now),
                            fromCore(revision.reason)}});
    }
    return choices;
}

void ask(QWidget& parent, const QString& title, std::vector<Choice> choices,
         const std::function<void(const Choice&)>& take) {
    std::vector<PickRow> rows;
    for (const auto& choice : choices)
        rows.push_back(choice.row);
    auto* dialog = new PickDialog(title, {}, std::move(rows), &parent);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    QObject::connect(dialog, &PickDialog::picked, &parent, [choices = std::move(choices), take](int row) {
        take(choices[static_cast<std::size_t>(row)]);
    });
    dialog->open();
}

} // namespace

void chooseProduct(QWidget& parent, BlindDesk& blind, const std::function<void(const ProductChoice&)>& take) {
    auto& desk = blind.desk();
    std::vector<Choice> choices;
    std::optional<base::DrinkId> inHand;
    const bool read = desk.attempt([&] {
        const auto& book = desk.book()->book();
        const auto now = desk.book()->clock().now();
        if (auto* draft = desk.draft()) {
            inHand = draft->drink().id;
            const QString name = fromCore(draft->drink().name) + u' ';
            if (blind.isWritable() && !draft->spec().lines.empty() &&
                (!draft->base() || draft->differsFromBase()))
                choices.push_back({{},
                                   std::nullopt,
                                   {StateMark::Draft,
                                    name + QObject::tr("draft"),
                                    {},
                                    QObject::tr("not kept yet: it is kept first")}});
            for (auto& choice : revisionsOf(blind, book, *inHand, now, name))
                choices.push_back(std::move(choice));
        }
        for (const auto& summary : book.summaries()) {
            if (summary.binned || summary.id == inHand || summary.revisions == 0) continue;
            choices.push_back({{},
                               summary.id,
                               {summary.hasHouse ? StateMark::House : StateMark::Kept,
                                fromCore(summary.name),
                                counted(summary.revisions, QObject::tr("revision"), QObject::tr("revisions")),
                                {}}});
        }
    });
    if (!read) return;
    ask(parent, QObject::tr("What is poured"), std::move(choices),
        [&parent, &blind, take](const Choice& choice) {
            if (!choice.drink) {
                take(choice.product);
                return;
            }
            std::vector<Choice> further;
            QString name;
            auto& own = blind.desk();
            own.attempt([&] {
                const auto& book = own.book()->book();
                if (const auto drink = book.drink(*choice.drink)) name = fromCore(drink->name);
                further = revisionsOf(blind, book, *choice.drink, own.book()->clock().now(), name + u' ');
            });
            if (further.size() == 1)
                take(further.front().product);
            else if (!further.empty())
                ask(parent, name, std::move(further), [take](const Choice& which) { take(which.product); });
        });
}

} // namespace stillroom::ui
