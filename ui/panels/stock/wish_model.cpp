#include "ui/panels/stock/wish_model.h"

#include "ui/delegates/wrapped_delegate.h"
#include "ui/panels/stock/stock_words.h"
#include "ui/text/border.h"
#include "ui/theme/theme.h"

#include <algorithm>
#include <numeric>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

WishModel::WishModel(StockSession& session, QObject* parent)
    : QAbstractTableModel(parent),
      m_session(session),
      m_rows(order()) {
    connect(&session, &StockSession::stockChanged, this, &WishModel::reload);
    connect(&session, &StockSession::wishesChanged, this, &WishModel::reload);
}

std::vector<std::size_t> WishModel::order() const {
    const auto& drinks = m_session.board().drinks;
    std::vector<std::size_t> rows(drinks.size());
    std::iota(rows.begin(), rows.end(), 0U);
    std::stable_sort(rows.begin(), rows.end(), [&](std::size_t a, std::size_t b) {
        return nearnessOf(drinks[a].reach) < nearnessOf(drinks[b].reach);
    });
    return rows;
}

void WishModel::reload() {
    auto rows = order();
    if (rows == m_rows) {
        if (!m_rows.empty()) Q_EMIT dataChanged(index(0, 0), index(rowCount() - 1, ColumnCount - 1));
        return;
    }
    if (rows.size() != m_rows.size()) {
        beginResetModel();
        m_rows = std::move(rows);
        endResetModel();
        return;
    }
    // The same drinks in another order: what is chosen goes with its drink.
    Q_EMIT layoutAboutToBeChanged();
    const auto before = persistentIndexList();
    QModelIndexList after;
    for (const QModelIndex& index : before) {
        const auto was = m_rows[static_cast<std::size_t>(index.row())];
        const auto place = std::find(rows.begin(), rows.end(), was) - rows.begin();
        after << createIndex(static_cast<int>(place), index.column());
    }
    m_rows = std::move(rows);
    changePersistentIndexList(before, after);
    Q_EMIT layoutChanged();
}

const store::BoardDrink* WishModel::drink(int row) const {
    const auto& drinks = m_session.board().drinks;
    if (row < 0 || static_cast<std::size_t>(row) >= m_rows.size()) return nullptr;
    const std::size_t at = m_rows[static_cast<std::size_t>(row)];
    return at < drinks.size() ? &drinks[at] : nullptr;
}

int WishModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

int WishModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : ColumnCount;
}

QVariant WishModel::data(const QModelIndex& index, int role) const {
    const auto* drink = this->drink(index.row());
    if (drink == nullptr) return {};
    const double serves = m_session.serves(drink->id);
    const QString wanted = serves > 0 ? QString::number(serves, 'g', 9) : QString();
    const QString name = drink->name.empty() ? tr("(no name)") : fromCore(drink->name);
    switch (role) {
    case Qt::DisplayRole:
        if (index.column() == Drink) return name;
        return index.column() == Standing ? standingWords(m_session.board(), *drink) : wanted;
    case Qt::EditRole:
        return index.column() == Serves ? wanted : QVariant();
    case Qt::ToolTipRole:
        return index.column() == Drink ? name : standingWords(m_session.board(), *drink);
    case Qt::AccessibleTextRole:
        return u"%1, %2%3"_s.arg(name, standingWords(m_session.board(), *drink),
                                 wanted.isEmpty() ? QString() : QString(u", %1 wanted"_s.arg(wanted)));
    case WrappedTypeRole:
        return static_cast<int>(index.column() == Drink    ? Type::Line
                                : index.column() == Serves ? Type::ReadingServed
                                                           : Type::Control);
    case Qt::FontRole: // of the field one types into
        return Theme::current().font(Type::Reading);
    case WrappedInkRole:
        return static_cast<int>(index.column() == Standing ? Token::Ink2 : Token::Ink);
    case Qt::TextAlignmentRole:
        return index.column() == Serves ? QVariant(Qt::AlignRight | Qt::AlignVCenter) : QVariant();
    default:
        return {};
    }
}

QVariant WishModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal) return {};
    if (role == Qt::TextAlignmentRole)
        return section == Serves ? QVariant(Qt::AlignRight | Qt::AlignVCenter)
                                 : QVariant(Qt::AlignLeft | Qt::AlignVCenter);
    if (role != Qt::DisplayRole) return {};
    return section == Drink ? tr("drink") : section == Standing ? tr("how near") : tr("serves");
}

Qt::ItemFlags WishModel::flags(const QModelIndex& index) const {
    auto flags = QAbstractTableModel::flags(index);
    if (index.column() == Serves) flags |= Qt::ItemIsEditable;
    return flags;
}

bool WishModel::setData(const QModelIndex& index, const QVariant& value, int role) {
    const auto* drink = this->drink(index.row());
    if (drink == nullptr || role != Qt::EditRole || index.column() != Serves) return false;
    constexpr double kMost = 100000;
    const QString text = value.toString().trimmed();
    bool isNumber = text.isEmpty();
    const double serves = text.isEmpty() ? 0 : QString(text).replace(u',', u'.').toDouble(&isNumber);
    if (!isNumber || !(serves >= 0 && serves <= kMost)) {
        Q_EMIT refused(tr("“%1” is not a number of serves. Write one from 0 to 100,000.").arg(text));
        return false;
    }
    m_session.setServes(drink->id, serves);
    return true;
}

} // namespace stillroom::ui
