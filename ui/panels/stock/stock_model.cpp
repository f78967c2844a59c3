#include "ui/panels/stock/stock_model.h"

#include "core/exchange/stock_entry.h"
#include "ui/delegates/wrapped_delegate.h"
#include "ui/panels/stock/stock_words.h"
#include "ui/text/border.h"
#include "ui/theme/theme.h"

#include <algorithm>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

StockModel::StockModel(StockSession& session, QObject* parent)
    : QAbstractTableModel(parent),
      m_session(session),
      m_rows(shown()) {
    connect(&session, &StockSession::stockChanged, this, &StockModel::reload);
}

// Rows stay where they are while only what is said of them changes: the keyboard keeps its place.
void StockModel::reload() {
    auto rows = shown();
    if (rows == m_rows) {
        if (!m_rows.empty()) Q_EMIT dataChanged(index(0, 0), index(rowCount() - 1, ColumnCount - 1));
        return;
    }
    beginResetModel();
    m_rows = std::move(rows);
    endResetModel();
}

std::vector<base::IngredientId> StockModel::shown() const {
    const auto& board = m_session.board();
    if (m_filter.isEmpty()) return board.stocked;
    std::vector<base::IngredientId> rows;
    for (const base::IngredientId id : board.stocked)
        if (ingredientName(board, id).contains(m_filter, Qt::CaseInsensitive)) rows.push_back(id);
    constexpr std::size_t kMostFurther = 20;
    for (const base::IngredientId id : board.larder.search(toCore(m_filter), kMostFurther))
        if (std::find(rows.begin(), rows.end(), id) == rows.end()) rows.push_back(id);
    return rows;
}

void StockModel::setFilter(const QString& text) {
    m_filter = text.trimmed();
    reload();
}

const larder::Ingredient* StockModel::at(int row) const {
    if (row < 0 || static_cast<std::size_t>(row) >= m_rows.size()) return nullptr;
    return m_session.board().larder.find(m_rows[static_cast<std::size_t>(row)]);
}

base::IngredientId StockModel::ingredient(int row) const {
    const auto* known = at(row);
    return known != nullptr ? known->id : base::IngredientId{};
}

int StockModel::rowOf(base::IngredientId ingredient) const {
    const auto found = std::find(m_rows.begin(), m_rows.end(), ingredient);
    return found == m_rows.end() ? -1 : static_cast<int>(found - m_rows.begin());
}

bool StockModel::change(int row, const larder::Stock& stock) {
    const auto* known = at(row);
    if (known == nullptr) return false;
    const QString name = fromCore(known->name);
    if (!m_session.setStock(known->id, stock)) return false;
    const QString amount = fromCore(exchange::stockAmountText(stock));
    Q_EMIT said(amount.isEmpty() ? u"%1: %2"_s.arg(name, shelfWord(stock))
                                 : u"%1: %2, %3"_s.arg(name, shelfWord(stock), amount));
    return true;
}

bool StockModel::setState(int row, larder::OnShelf state) {
    const auto* known = at(row);
    if (known == nullptr) return false;
    larder::Stock stock = known->stock;
    stock.state = state;
    // A count that says otherwise is an old one.
    const bool counted = stock.amount && *stock.amount > 0;
    if (state == larder::OnShelf::Out || state == larder::OnShelf::NotSaid) stock.amount.reset();
    if (state != larder::OnShelf::Out && stock.amount && !counted) stock.amount.reset();
    stock.countedOn = state == larder::OnShelf::NotSaid ? std::string() : toCore(m_session.today());
    return change(row, stock);
}

bool StockModel::setOff(int row, bool off) {
    const auto* known = at(row);
    if (known == nullptr) return false;
    larder::Stock stock = known->stock;
    stock.off = off;
    return change(row, stock);
}

int StockModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

int StockModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : ColumnCount;
}

QVariant StockModel::data(const QModelIndex& index, int role) const {
    const auto* known = at(index.row());
    if (known == nullptr) return {};
    const QString amount = fromCore(exchange::stockAmountText(known->stock));
    switch (role) {
    case Qt::DisplayRole:
        if (index.column() == Name) return fromCore(known->name);
        return index.column() == State ? shelfWord(known->stock) : amount;
    case Qt::EditRole:
        return index.column() == Amount ? amount : QVariant();
    case Qt::ToolTipRole:
        return index.column() == Name ? fromCore(known->name) : QVariant();
    case Qt::AccessibleTextRole:
        return u"%1, %2%3"_s.arg(fromCore(known->name), shelfWord(known->stock),
                                 amount.isEmpty() ? QString() : QString(u", "_s + amount));
    case WrappedTypeRole:
        return static_cast<int>(index.column() == Name ? Type::Line : Type::Reading);
    case Qt::FontRole: // of the field one types into
        return Theme::current().font(Type::Reading);
    case WrappedInkRole:
        return static_cast<int>(
            index.column() == State && shelfWord(known->stock) == u"not said"_s ? Token::Ink3 : Token::Ink);
    case Qt::TextAlignmentRole:
        return index.column() == Amount ? QVariant(Qt::AlignRight | Qt::AlignVCenter) : QVariant();
    default:
        return {};
    }
}

QVariant StockModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal) return {};
    if (role == Qt::TextAlignmentRole)
        return section == Amount ? QVariant(Qt::AlignRight | Qt::AlignVCenter)
                                 : QVariant(Qt::AlignLeft | Qt::AlignVCenter);
    if (role != Qt::DisplayRole) return {};
    switch (section) {
    case Name:
        return tr("on the shelf");
    case State:
        return tr("there");
    default:
        return tr("counted");
    }
}

Qt::ItemFlags StockModel::flags(const QModelIndex& index) const {
    auto flags = QAbstractTableModel::flags(index);
    if (index.column() == Amount && m_session.isWritable()) flags |= Qt::ItemIsEditable;
    return flags;
}

bool StockModel::setData(const QModelIndex& index, const QVariant& value, int role) {
    const auto* known = at(index.row());
    if (known == nullptr || role != Qt::EditRole || index.column() != Amount) return false;
    const QString text = value.toString().trimmed();
    larder::Stock stock = known->stock;
    if (text == fromCore(exchange::stockAmountText(stock))) return false;
    stock.countedOn = toCore(m_session.today());
    if (text.isEmpty()) {
        stock.amount.reset();
        return change(index.row(), stock);
    }
    const auto entry = exchange::readStockAmount(toCore(text), *known);
    if (!entry) {
        Q_EMIT refused(u"“%1”: %2"_s.arg(text, stockProblem(entry.error())));
        return false;
    }
    stock.amount = entry->amount;
    stock.unit = entry->unit;
    if (!(entry->amount > 0))
        stock.state = larder::OnShelf::Out;
    else if (stock.state == larder::OnShelf::Out || stock.state == larder::OnShelf::NotSaid)
        stock.state = larder::OnShelf::Have;
    return change(index.row(), stock);
}

} // namespace stillroom::ui
