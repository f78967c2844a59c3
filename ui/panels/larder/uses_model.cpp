#include "ui/panels/larder/uses_model.h"

#include "ui/panels/larder/entry_table.h"
#include "ui/session/workbook_session.h"
#include "ui/text/border.h"

#include <QStringList>

namespace stillroom::ui {

UsesModel::UsesModel(QObject* parent) : QAbstractTableModel(parent) {}

void UsesModel::set(WorkbookSession* book, std::shared_ptr<const UsesFound> uses) {
    beginResetModel();
    m_book = book;
    m_uses = std::move(uses);
    endResetModel();
}

base::DrinkId UsesModel::drinkAt(int row) const {
    return m_uses->by[static_cast<std::size_t>(row)].by;
}

int UsesModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() || !m_uses ? 0 : static_cast<int>(m_uses->by.size());
}
int UsesModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : ColumnCount;
}

QVariant UsesModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || !m_uses) return {};
    if (role == HandRole) return index.column() == Name;
    if (role == QuietRole) return index.column() != Name;
    if (role != Qt::DisplayRole && role != Qt::ToolTipRole) return {};
    const auto& use = m_uses->by[static_cast<std::size_t>(index.row())];
    const auto* summary = m_book->summary(use.by);
    switch (index.column()) {
    case Name:
        if (summary == nullptr) return {};
        return summary->name.empty() ? tr("no name yet") : fromCore(summary->name);
    case Menu:
        if (summary == nullptr) return {};
        if (summary->form == history::DrinkForm::Preparation) return tr("preparation");
        return fromCore(summary->menuName);
    case Through: {
        if (use.through.size() < 2) return tr("named in a line");
        QStringList names;
        for (std::size_t i = 1; i < use.through.size(); ++i)
            if (const auto* known = m_book->larder().find(use.through[i])) names << fromCore(known->name);
        return tr("through %1").arg(names.join(QStringLiteral(" → ")));
    }
    default:
        return {};
    }
}

QVariant UsesModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
    static const char* const names[] = {QT_TR_NOOP("Drink"), QT_TR_NOOP("Menu"), QT_TR_NOOP("How")};
    return tr(names[section]);
}

} // namespace stillroom::ui
