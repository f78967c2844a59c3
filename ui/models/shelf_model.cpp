#include "ui/models/shelf_model.h"

#include "core/base/text.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"

#include <algorithm>

namespace stillroom::ui {

ShelfModel::ShelfModel(QObject* parent) : QAbstractListModel(parent) {}

void ShelfModel::setBook(WorkbookSession* book) {
    if (m_book) m_book->disconnect(this);
    m_book = book;
    m_filter.clear();
    if (m_book) {
        connect(m_book, &WorkbookSession::shelfReloaded, this, &ShelfModel::reload);
        connect(m_book, &WorkbookSession::shelfRowChanged, this, &ShelfModel::rowChanged);
    }
    reload();
}

void ShelfModel::setFilter(const QString& text) {
    if (text == m_filter) return;
    m_filter = text;
    beginResetModel();
    m_rows = rowsShown();
    endResetModel();
}

int ShelfModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

QVariant ShelfModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) return {};
    const Row& row = m_rows[static_cast<std::size_t>(index.row())];
    switch (role) {
    case Qt::DisplayRole:
        return row.name;
    case DrinkIdRole:
        return fromCore(row.drink.text());
    case Qt::AccessibleTextRole: {
        if (row.sort == Sort::Heading) return row.name;
        QString words = row.name;
        if (!row.number.isEmpty()) words += QStringLiteral(", ") + tr("%1 % vol served").arg(row.number);
        if (row.hasPublished) words += QStringLiteral(", ") + tr("published");
        if (row.draftDiffers) words += QStringLiteral(", ") + tr("draft not kept");
        return words;
    }
    case Qt::ToolTipRole:
        return row.sort == Sort::Heading ? QVariant() : QVariant(row.name);
    default:
        return {};
    }
}

Qt::ItemFlags ShelfModel::flags(const QModelIndex& index) const {
    if (!index.isValid()) return Qt::NoItemFlags;
    if (m_rows[static_cast<std::size_t>(index.row())].sort == Sort::Heading) return Qt::ItemNeverHasChildren;
    return Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemNeverHasChildren;
}

int ShelfModel::rowOf(base::DrinkId drink) const {
    const auto found = std::find_if(m_rows.begin(), m_rows.end(), [&](const Row& row) {
        return row.sort != Sort::Heading && row.drink == drink;
    });
    return found == m_rows.end() ? -1 : static_cast<int>(found - m_rows.begin());
}

int ShelfModel::firstDrinkRow() const {
    const auto found =
        std::find_if(m_rows.begin(), m_rows.end(), [](const Row& row) { return row.sort != Sort::Heading; });
    return found == m_rows.end() ? -1 : static_cast<int>(found - m_rows.begin());
}

void ShelfModel::reload() {
    beginResetModel();
    m_folded.clear();
    if (m_book) {
        m_folded.reserve(m_book->shelf().size());
        for (const auto& summary : m_book->shelf())
            m_folded.push_back(base::fold(summary.name + " " + summary.menuName));
    }
    m_rows = rowsShown();
    endResetModel();
}

ShelfModel::Row ShelfModel::rowOfSummary(const store::DrinkSummary& summary) const {
    Row row;
    row.sort = summary.form == history::DrinkForm::Preparation ? Sort::Preparation : Sort::Drink;
    row.name = fromCore(summary.name);
    if (row.name.isEmpty()) row.name = tr("no name yet");
    row.drink = summary.id;
    row.draftDiffers = summary.draftDiffers;
    row.kept = summary.revisions > 0;
    row.hasHouse = summary.hasHouse;
    row.hasPublished = summary.hasPublished;
    row.binned = summary.binned;
    if (summary.servedStrength && row.sort == Sort::Drink) {
        const auto text = readingText(*summary.servedStrength, spec::Quantity::Strength);
        row.number = text.plain();
        row.gap = text.gap;
    }
    return row;
}

std::vector<ShelfModel::Row> ShelfModel::rowsShown() const {
    std::vector<Row> rows;
    if (!m_book) return rows;
    const auto words = base::foldedWords(toCore(m_filter));
    const auto passes = [&](std::size_t i) {
        return std::all_of(words.begin(), words.end(), [&](const std::string& word) {
            return m_folded[i].find(word) != std::string::npos;
        });
    };
    const auto& shelf = m_book->shelf();
    const auto section = [&](auto belongs, const QString& heading, const QString& unit) {
        const auto headingAt = rows.size();
        for (std::size_t i = 0; i < shelf.size(); ++i)
            if (belongs(shelf[i]) && passes(i)) rows.push_back(rowOfSummary(shelf[i]));
        if (rows.size() == headingAt) return;
        Row head;
        head.sort = Sort::Heading;
        head.name = heading;
        head.number = unit;
        rows.insert(rows.begin() + static_cast<std::ptrdiff_t>(headingAt), head);
    };
    // Menus in the shelf's own order; drinks on no menu come after those that are.
    std::vector<std::string> menus;
    for (const auto& summary : shelf)
        if (!summary.binned && summary.form == history::DrinkForm::Drink && !summary.menuName.empty() &&
            std::find(menus.begin(), menus.end(), summary.menuName) == menus.end())
            menus.push_back(summary.menuName);
    const QString served = tr("% vol served");
    bool first = true;
    for (const auto& menu : menus) {
        section(
            [&](const store::DrinkSummary& s) {
                return !s.binned && s.form == history::DrinkForm::Drink && s.menuName == menu;
            },
            fromCore(menu), first ? served : QString());
        first = false;
    }
    section(
        [](const store::DrinkSummary& s) {
            return !s.binned && s.form == history::DrinkForm::Drink && s.menuName.empty();
        },
        tr("Loose ideas"), first ? served : QString());
    section(
        [](const store::DrinkSummary& s) { return !s.binned && s.form == history::DrinkForm::Preparation; },
        tr("Preparations"), QString());
    section([](const store::DrinkSummary& s) { return s.binned; }, tr("Bin"), QString());
    return rows;
}

void ShelfModel::rowChanged(base::DrinkId drink) {
    const int at = rowOf(drink);
    const auto* summary = m_book ? m_book->summary(drink) : nullptr;
    if (at < 0 || summary == nullptr) return;
    auto& row = m_rows[static_cast<std::size_t>(at)];
    auto next = rowOfSummary(*summary);
    if (next == row) return;
    row = std::move(next);
    Q_EMIT dataChanged(index(at), index(at));
}

} // namespace stillroom::ui
