#include "ui/panels/larder/larder_list_model.h"

#include "core/base/text.h"
#include "core/preparation/doubts.h"
#include "ui/session/workbook_session.h"
#include "ui/text/border.h"
#include "ui/text/larder_words.h"
#include "ui/text/numbers.h"

#include <algorithm>

namespace stillroom::ui {

LarderListModel::LarderListModel(QObject* parent) : QAbstractTableModel(parent) {}

void LarderListModel::setBook(WorkbookSession* book) {
    if (m_book) m_book->disconnect(this);
    m_book = book;
    if (m_book) connect(m_book, &WorkbookSession::larderChanged, this, &LarderListModel::reload);
    reload();
}

void LarderListModel::setFilter(const QString& text) {
    if (text == m_filter) return;
    beginResetModel();
    m_filter = text;
    choose();
    endResetModel();
}

void LarderListModel::setHandbookShown(bool shown) {
    if (shown == m_handbook) return;
    beginResetModel();
    m_handbook = shown;
    choose();
    endResetModel();
}

void LarderListModel::reload() {
    beginResetModel();
    m_all.clear();
    m_own = 0;
    if (m_book) {
        const auto& rules = m_book->houseRules();
        auto rows = larder::listed(m_book->larder(), {rules.currency, rules.pricesOn, &rules.rates});
        m_all.reserve(rows.size());
        for (auto& each : rows) {
            Row row;
            row.name = fromCore(each.name);
            row.kind = fromCore(each.kind);
            row.noStrength = (each.missing & larder::kNoStrength) != 0;
            row.strength = each.abvPercent  ? number(*each.abvPercent, 1)
                           : row.noStrength ? QStringLiteral("?")
                                            : QString();
            row.noPrice = !each.price;
            row.price = each.price ? number(each.price->major, rules.currency.exponent) : QStringLiteral("?");
            row.per = each.price ? unitPricePer(*each.price) : QString();
            row.stock = stockWord(each.stock);
            const auto* known = each.own ? m_book->larder().find(each.id) : nullptr;
            row.doubtful = known != nullptr && !preparation::doubtsOf(*known).empty();
            m_own += each.own ? 1 : 0;
            row.listed = std::move(each);
            m_all.push_back(std::move(row));
        }
    }
    choose();
    endResetModel();
}

void LarderListModel::choose() {
    m_shown.clear();
    const auto words = base::foldedWords(toCore(m_filter));
    for (std::size_t i = 0; i < m_all.size(); ++i) {
        const auto& row = m_all[i].listed;
        if (!row.own && words.empty() && !m_handbook) continue;
        const bool passes = std::all_of(words.begin(), words.end(), [&](const std::string& word) {
            return row.folded.find(word) != std::string::npos;
        });
        if (passes) m_shown.push_back(i);
    }
}

int LarderListModel::rowOf(base::IngredientId ingredient) const {
    const auto found = std::find_if(m_shown.begin(), m_shown.end(),
                                    [&](std::size_t i) { return m_all[i].listed.id == ingredient; });
    return found == m_shown.end() ? -1 : static_cast<int>(found - m_shown.begin());
}

int LarderListModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_shown.size());
}
int LarderListModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : ColumnCount;
}

QVariant LarderListModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) return {};
    const Row& at = row(index.row());
    if (role == Qt::DisplayRole) {
        switch (index.column()) {
        case Name:
            return at.name;
        case Kind:
            return at.kind;
        case Strength:
            return at.strength;
        case Price:
            return at.per.isEmpty() ? at.price : QString(at.price + QStringLiteral(" / ") + at.per);
        case Stock:
            return at.stock;
        default:
            return {};
        }
    }
    if (role == Qt::AccessibleTextRole && index.column() == Name) {
        QString words = at.name;
        if (at.noStrength) words += tr(", strength not known");
        if (at.doubtful) words += tr(", doubtful");
        if (at.listed.missing != 0 && !at.noStrength) words += tr(", a fact is missing");
        return words;
    }
    if (role == Qt::ToolTipRole && index.column() == Name) return at.name;
    return {};
}

QVariant LarderListModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal) return {};
    if (role == Qt::TextAlignmentRole)
        return QVariant((section == Strength ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
    if (role != Qt::DisplayRole) return {};
    switch (section) {
    case Name:
        return tr("Larder");
    case Kind:
        return tr("Kind");
    case Strength:
        return tr("% vol");
    case Price: {
        const QString sign = m_book ? currencySign(m_book->houseRules().currency) : QString();
        return tr("Cost %1").arg(sign);
    }
    case Stock:
        return tr("Stock");
    default:
        return {};
    }
}

} // namespace stillroom::ui
