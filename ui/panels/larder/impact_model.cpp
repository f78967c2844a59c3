#include "ui/panels/larder/impact_model.h"

#include "ui/panels/larder/entry_table.h"
#include "ui/session/workbook_session.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/text/revision_label.h"
#include "ui/text/words.h"

#include <QStringList>

namespace stillroom::ui {

using spec::Quantity;

namespace {

const QString kBecomes = QStringLiteral(" → ");

QString beforeAfter(const QString& before, const QString& after) {
    return before == after ? before : QString(before + kBecomes + after);
}

QString readings(const preparation::Impact& impact, Quantity quantity) {
    const auto words = [&](const spec::StageReadings& side) {
        return readingText(side[quantity], quantity).plain();
    };
    return beforeAfter(words(impact.before), words(impact.after));
}

QString facts(const std::optional<larder::Fact>& before, const std::optional<larder::Fact>& after,
              double factor, int decimals) {
    const auto words = [&](const std::optional<larder::Fact>& fact) {
        return fact ? number(fact->typical * factor, decimals) : QStringLiteral("?");
    };
    return beforeAfter(words(before), words(after));
}

QString gainedAndLost(const std::vector<std::string>& gained, const std::vector<std::string>& lost) {
    QStringList all;
    for (const auto& id : gained)
        all << QString(QStringLiteral("+ ") + allergenName(fromCore(id)));
    for (const auto& id : lost)
        all << QString(kMinus + QStringLiteral(" ") + allergenName(fromCore(id)));
    return all.join(QStringLiteral(", "));
}

std::vector<std::string> missingIn(const larder::FactState& a, const larder::FactState& b) {
    std::vector<std::string> found;
    for (const auto& id : a.allergens.value_or(std::vector<std::string>{})) {
        const auto& other = b.allergens;
        if (!other || std::find(other->begin(), other->end(), id) == other->end()) found.push_back(id);
    }
    return found;
}

} // namespace

ImpactModel::ImpactModel(QObject* parent) : QAbstractTableModel(parent) {}

void ImpactModel::set(WorkbookSession* book, std::shared_ptr<const ImpactFound> found) {
    beginResetModel();
    m_book = book;
    m_found = std::move(found);
    endResetModel();
}

int ImpactModel::made() const {
    return m_found ? static_cast<int>(m_found->impact.made.size()) : 0;
}
int ImpactModel::rowCount(const QModelIndex& parent) const {
    if (parent.isValid() || !m_found) return 0;
    return made() + static_cast<int>(m_found->impact.drinks.changed.size());
}
int ImpactModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : ColumnCount;
}

QString ImpactModel::madeText(int row, int column) const {
    const auto& change = m_found->impact.made[static_cast<std::size_t>(row)];
    const auto* known = m_book->larder().find(change.ingredient);
    switch (column) {
    case Name:
        return known != nullptr ? fromCore(known->name) : QString();
    case Version:
        return tr("made, 100 ml"); // what its cost is of
    case Strength:
        return facts(change.before.abvPercent, change.after.abvPercent, 1, 1);
    case Sugar:
        return facts(change.before.sugarGPerL, change.after.sugarGPerL, 0.1, 1);
    case Acid:
        return facts(change.before.acidGPerL, change.after.acidGPerL, 0.1, 2);
    case Cost: {
        const int decimals = m_book->houseRules().currency.exponent;
        const auto words = [&](const std::optional<double>& cost) {
            return cost ? number(*cost, decimals) : QStringLiteral("?");
        };
        return beforeAfter(words(change.costBefore), words(change.costAfter));
    }
    case Allergens:
        return gainedAndLost(missingIn(change.after, change.before), missingIn(change.before, change.after));
    default:
        return {};
    }
}

QString ImpactModel::drinkText(int row, int column) const {
    const auto& impact = m_found->impact.drinks.changed[static_cast<std::size_t>(row)];
    const auto& used = *m_found->subjects[impact.subject];
    switch (column) {
    case Name: {
        const auto* summary = m_book->summary(used.drink);
        if (summary == nullptr) return {};
        return summary->name.empty() ? tr("no name yet") : fromCore(summary->name);
    }
    case Version: {
        if (used.isDraft) return tr("draft");
        const auto* summary = m_book->summary(used.drink);
        const auto form = summary ? summary->form : history::DrinkForm::Drink;
        return tr("%1, read again").arg(revisionLabel(form, used.revision));
    }
    case Strength:
        return readings(impact, Quantity::Strength);
    case Sugar:
        return readings(impact, Quantity::Sugar);
    case Acid:
        return readings(impact, Quantity::Acid);
    case Cost:
        return readings(impact, Quantity::Cost);
    case Allergens: {
        QString text = gainedAndLost(impact.allergensGained, impact.allergensLost);
        if (impact.unknownAllergensAfter > 0) {
            if (!text.isEmpty()) text += QStringLiteral(", ");
            text += tr("others unknown");
        }
        return text;
    }
    default:
        return {};
    }
}

bool ImpactModel::moves(int row, int column) const {
    if (column < Strength) return true;
    const QString text = index(row, column).data().toString();
    return column == Allergens ? !text.isEmpty() : text.contains(kBecomes);
}

QVariant ImpactModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || !m_found) return {};
    const int row = index.row() - made();
    if (role == Qt::DisplayRole)
        return row < 0 ? madeText(index.row(), index.column()) : drinkText(row, index.column());
    if (role == HandRole) return index.column() == Name;
    if (role == QuietRole) return index.column() == Version || index.column() == Allergens;
    if (role == Qt::TextAlignmentRole)
        return QVariant(
            (index.column() >= Strength && index.column() <= Cost ? Qt::AlignRight : Qt::AlignLeft) |
            Qt::AlignVCenter);
    return {};
}

QVariant ImpactModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal) return {};
    if (role == Qt::TextAlignmentRole)
        return QVariant((section >= Strength && section <= Cost ? Qt::AlignRight : Qt::AlignLeft) |
                        Qt::AlignVCenter);
    if (role != Qt::DisplayRole) return {};
    static const char* const names[] = {QT_TR_NOOP("What changes"),  QT_TR_NOOP("Which"),
                                        QT_TR_NOOP("% vol"),         QT_TR_NOOP("Sugar g/100 ml"),
                                        QT_TR_NOOP("Acid g/100 ml"), QT_TR_NOOP("Cost a serve"),
                                        QT_TR_NOOP("Allergens")};
    return tr(names[section]);
}

} // namespace stillroom::ui
