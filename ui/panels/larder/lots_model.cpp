#include "ui/panels/larder/lots_model.h"

#include "core/larder/fact_entry.h"
#include "core/larder/price_history.h"
#include "core/preparation/part_dates.h"
#include "ui/panels/larder/entry_table.h"
#include "ui/session/larder_edit.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/text/terms_words.h"

#include <algorithm>

namespace stillroom::ui {

using larder::Lot;

namespace {

QString figureText(const std::optional<larder::Fact>& fact) {
    return fact ? trimmedNumber(fact->typical, 2) : QString();
}

std::optional<larder::Fact> Lot::*figureOf(int column) {
    switch (column) {
    case LotsModel::Strength:
        return &Lot::abvPercent;
    case LotsModel::Sugar:
        return &Lot::sugarGPerL;
    default:
        return &Lot::acidGPerL;
    }
}

QString wordOf(bool inUse, bool usedUp) {
    if (inUse) return LotsModel::tr("in use");
    return usedUp ? LotsModel::tr("used up") : LotsModel::tr("put by");
}

} // namespace

LotsModel::LotsModel(QObject* parent) : QAbstractTableModel(parent) {}

void LotsModel::setEdit(LarderEdit* edit) {
    m_edit = edit;
    refresh();
    if (edit == nullptr) return;
    connect(edit, &LarderEdit::changed, this, &LotsModel::refresh);
    connect(edit, &LarderEdit::chosenChanged, this, &LotsModel::refresh);
}

void LotsModel::refresh() {
    const bool chosen = m_edit != nullptr && m_edit->hasChosen() && !m_edit->isNew();
    const base::IngredientId of = chosen ? m_edit->chosen() : base::IngredientId();
    auto lots = chosen ? m_edit->larderNow().lots(of) : std::vector<Lot>();
    m_lastDays.clear();
    for (const Lot& lot : lots) {
        const auto last = preparation::lastDayOf(lot, m_edit->larderNow(), m_edit->reading().preparations(),
                                                 m_edit->book().houseRules());
        m_lastDays.push_back(last ? fromCore(*last) : QString());
    }
    if (of == m_of && lots.size() == m_lots.size()) {
        m_lots = std::move(lots);
        if (rowCount() > 0) Q_EMIT dataChanged(index(0, 0), index(rowCount() - 1, ColumnCount - 1));
        return;
    }
    beginResetModel();
    m_of = of;
    m_lots = std::move(lots);
    endResetModel();
}

int LotsModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() || m_of.isNull() ? 0 : static_cast<int>(m_lots.size()) + 1;
}
int LotsModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : ColumnCount;
}

QString LotsModel::field(int row, int column) const {
    const QString which =
        isNext(row) ? QStringLiteral("next") : fromCore(m_lots[static_cast<std::size_t>(row)].id.text());
    return QStringLiteral("lot/%1/%2").arg(which).arg(column);
}

QString LotsModel::text(const Lot& lot, int column) const {
    switch (column) {
    case On:
        return fromCore(lot.on);
    case UseBy:
        return fromCore(lot.useBy);
    case Got:
        return lot.gotMl ? trimmedNumber(*lot.gotMl, 1) : QString();
    case Strength:
    case Sugar:
    case Acid:
        return figureText(lot.*figureOf(column));
    case Note:
        return fromCore(lot.note);
    default:
        return wordOf(m_edit->now().lotInUse == lot.id, lot.usedUp);
    }
}

// Over: what is made of it is not kept at all.
bool LotsModel::isPast(int row) const {
    if (isNext(row) || m_lots[static_cast<std::size_t>(row)].usedUp) return false;
    const QString& last = m_lastDays[static_cast<std::size_t>(row)];
    return !last.isEmpty() && last < fromCore(m_edit->today());
}

bool LotsModel::isWorkedOut(int row, int column) const {
    return column == UseBy && !isNext(row) && m_lots[static_cast<std::size_t>(row)].useBy.empty();
}

QVariant LotsModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || m_edit == nullptr) return {};
    const int row = index.row();
    const int column = index.column();
    const QString typed = m_edit->typed(field(row, column));
    const QString shown = isNext(row) ? QString() : text(m_lots[static_cast<std::size_t>(row)], column);
    const bool number = column >= Got && column <= Acid;
    switch (role) {
    case Qt::DisplayRole:
        if (!typed.isEmpty()) return typed;
        if (isNext(row) && column == On) return tr("next lot");
        if (isWorkedOut(row, column)) return m_lastDays[static_cast<std::size_t>(row)];
        return column == State && isPast(row) ? QString(shown + tr(", past")) : shown;
    case Qt::EditRole:
        return typed.isEmpty() ? shown : typed;
    case Qt::TextAlignmentRole:
        return QVariant((number ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
    case UnreadableRole:
        return !typed.isEmpty();
    case QuietRole:
        return column == State || isWorkedOut(row, column) || (isNext(row) && typed.isEmpty());
    case DoubtRole:
        return column == State && isPast(row);
    case Qt::ToolTipRole:
        return isWorkedOut(row, column) && !m_lastDays[static_cast<std::size_t>(row)].isEmpty()
                   ? QVariant(tr("Worked out from how long it keeps; write a day to say otherwise."))
                   : QVariant();
    case HandRole:
        return column == Note || (isNext(row) && typed.isEmpty());
    case ChoicesRole:
        if (column != State || isNext(row)) return {};
        return QStringList{wordOf(false, false), wordOf(true, false), wordOf(false, true)};
    case ChangedRole: {
        if (isNext(row) || column != On) return false;
        const auto stored = m_edit->book().larder().lots(m_of);
        return std::find(stored.begin(), stored.end(), m_lots[static_cast<std::size_t>(row)]) == stored.end();
    }
    default:
        return {};
    }
}

Qt::ItemFlags LotsModel::flags(const QModelIndex& index) const {
    if (!index.isValid() || m_edit == nullptr) return Qt::NoItemFlags;
    Qt::ItemFlags flags = Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemNeverHasChildren;
    if (!isNext(index.row()) || index.column() == On) flags |= Qt::ItemIsEditable;
    return flags;
}

bool LotsModel::take(Lot& lot, int column, const QString& written) const {
    const QString text = written.trimmed();
    const auto isDay = [&] { return larder::isCivilDate(toCore(text)); };
    switch (column) {
    case On:
        lot.on = toCore(text);
        return isDay();
    case UseBy:
        lot.useBy = toCore(text);
        return text.isEmpty() || isDay();
    case Note:
        lot.note = toCore(text);
        return true;
    default:
        break;
    }
    const auto value = typedNumber(text);
    if (!text.isEmpty() && (!value || *value < 0)) return false;
    if (column == Got) {
        lot.gotMl = value;
        return true;
    }
    auto& figure = lot.*figureOf(column);
    if (value && column == Strength && *value > 100) return false;
    if (value)
        figure = larder::withSayer(larder::withValue(figure, *value, m_edit->today()),
                                   larder::SourceKind::Measured);
    else
        figure.reset();
    return true;
}

void LotsModel::takeState(const Lot& lot, const QString& word) {
    Lot next = lot;
    next.usedUp = word == wordOf(false, true);
    if (next != lot) m_edit->setLot(next);
    larder::Ingredient ingredient = m_edit->now();
    if (word == wordOf(true, false))
        ingredient.lotInUse = lot.id;
    else if (ingredient.lotInUse == lot.id)
        ingredient.lotInUse.reset();
    m_edit->set(std::move(ingredient));
}

bool LotsModel::setData(const QModelIndex& index, const QVariant& value, int role) {
    if (role != Qt::EditRole || !flags(index).testFlag(Qt::ItemIsEditable)) return false;
    const int column = index.column();
    const QString written = value.toString();
    const QString key = field(index.row(), column);
    if (!isNext(index.row())) {
        const Lot was = m_lots[static_cast<std::size_t>(index.row())];
        if (column == State) {
            takeState(was, written);
            return true;
        }
        if (written == text(was, column)) {
            m_edit->setTyped(key, {});
            return true;
        }
        Lot next = was;
        const bool readable = take(next, column, written);
        m_edit->setTyped(key, readable ? QString() : written);
        if (readable) m_edit->setLot(next);
        return true;
    }
    if (written.trimmed().isEmpty()) {
        m_edit->setTyped(key, {});
        return true;
    }
    Lot next;
    next.id = base::LotId::random();
    next.ingredient = m_of;
    const bool readable = take(next, On, written);
    m_edit->setTyped(key, readable ? QString() : written);
    // The row is made once the cell being typed in has closed.
    if (readable)
        QMetaObject::invokeMethod(
            this,
            [this, next] {
                if (m_edit->chosen() == next.ingredient) m_edit->setLot(next);
            },
            Qt::QueuedConnection);
    return true;
}

QStringList LotsModel::problems() const {
    QStringList all;
    if (m_edit == nullptr || m_of.isNull() || m_of != m_edit->chosen()) return all;
    for (int row = 0; row < rowCount(); ++row)
        for (int column = On; column < Note; ++column) {
            const QString typed = m_edit->typed(field(row, column));
            if (typed.isEmpty()) continue;
            const QString what = headerData(column, Qt::Horizontal, Qt::DisplayRole).toString();
            all << (column <= UseBy ? tr("%1: “%2” is no day. It is written 2026-11-25.")
                                    : tr("%1 of the lot: “%2” is no figure that can be."))
                       .arg(what, shortened(typed));
        }
    return all;
}

QVariant LotsModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal) return {};
    if (role == Qt::TextAlignmentRole)
        return QVariant((section >= Got && section <= Acid ? Qt::AlignRight : Qt::AlignLeft) |
                        Qt::AlignVCenter);
    if (role != Qt::DisplayRole) return {};
    static const char* const names[] = {
        QT_TR_NOOP("Made, bought on"), QT_TR_NOOP("Use by"),   QT_TR_NOOP("Got ml"), QT_TR_NOOP("% vol"),
        QT_TR_NOOP("Sugar g/l"),       QT_TR_NOOP("Acid g/l"), QT_TR_NOOP("Note"),   QT_TR_NOOP("State")};
    return tr(names[section]);
}

} // namespace stillroom::ui
