#include "ui/panels/larder/facts_model.h"

#include "core/larder/fact_entry.h"
#include "ui/panels/larder/entry_table.h"
#include "ui/session/larder_edit.h"
#include "ui/text/border.h"
#include "ui/text/larder_words.h"
#include "ui/text/numbers.h"
#include "ui/text/terms_words.h"

#include <QRegularExpression>

#include <algorithm>

namespace stillroom::ui {

using larder::factKeys;

namespace {

const larder::FactKey& keyAt(int row) {
    return factKeys()[static_cast<std::size_t>(row)];
}

std::vector<larder::SourceKind> sayers() {
    using larder::SourceKind;
    return {SourceKind::Label, SourceKind::Measured, SourceKind::Handbook, SourceKind::Assumed};
}

// "5–7", "5 to 7", "5 7"
std::optional<std::pair<double, double>> typedRange(const QString& text) {
    static const QRegularExpression between(QStringLiteral("\\s*(?:[–—-]|\\bto\\b|\\.\\.)\\s*|\\s+"));
    const auto parts = text.trimmed().split(between, Qt::SkipEmptyParts);
    if (parts.size() != 2) return std::nullopt;
    const auto low = typedNumber(parts[0]);
    const auto high = typedNumber(parts[1]);
    return low && high ? std::optional(std::pair(*low, *high)) : std::nullopt;
}

} // namespace

FactsModel::FactsModel(QObject* parent) : QAbstractTableModel(parent) {}

void FactsModel::setEdit(LarderEdit* edit) {
    beginResetModel();
    m_edit = edit;
    endResetModel();
    if (edit == nullptr) return;
    const auto refresh = [this] {
        if (rowCount() > 0) Q_EMIT dataChanged(index(0, 0), index(rowCount() - 1, ColumnCount - 1));
    };
    connect(edit, &LarderEdit::changed, this, refresh);
    connect(edit, &LarderEdit::chosenChanged, this, refresh);
}

int FactsModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() || m_edit == nullptr ? 0 : static_cast<int>(factKeys().size());
}
int FactsModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : ColumnCount;
}

QString FactsModel::fieldOf(int row, int column) const {
    return QStringLiteral("fact/%1/%2").arg(fromCore(keyAt(row).id)).arg(column);
}

bool FactsModel::isAsked(int row) const {
    const auto& facts = m_edit->now().facts;
    return row == 0 ? !facts.dry : row < 3;
}

QString FactsModel::text(int row, int column) const {
    const auto& facts = m_edit->now().facts;
    const auto& key = keyAt(row);
    const auto& fact = facts.*key.member;
    const int decimals = factDecimals(key.id);
    switch (column) {
    case Fact:
        return factName(key.id);
    case Value:
        return fact ? trimmedNumber(fact->typical, decimals) : isAsked(row) ? QStringLiteral("?") : QString();
    case Unit:
        return factUnit(key.id, facts.dry);
    case Range:
        return fact && fact->low < fact->high ? QString(trimmedNumber(fact->low, decimals) + kEnDash +
                                                        trimmedNumber(fact->high, decimals))
                                              : QString();
    case Sayer:
        return fact ? sayerWord(fact->sourceKind) : QString();
    case Source:
        return fact && fact->source != larder::sourceKindId(fact->sourceKind) ? fromCore(fact->source)
                                                                              : QString();
    case On:
        return fact ? fromCore(fact->on) : QString();
    default:
        return {};
    }
}

QVariant FactsModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || m_edit == nullptr) return {};
    const int row = index.row();
    const int column = index.column();
    const bool typed = m_edit->hasTyped(fieldOf(row, column));
    switch (role) {
    case Qt::DisplayRole:
        return typed ? m_edit->typed(fieldOf(row, column)) : text(row, column);
    case Qt::EditRole: {
        if (typed) return m_edit->typed(fieldOf(row, column));
        const QString shown = text(row, column);
        return column == Value && shown == QStringLiteral("?") ? QString() : shown;
    }
    case Qt::TextAlignmentRole:
        return QVariant((column == Value || column == Range ? Qt::AlignRight : Qt::AlignLeft) |
                        Qt::AlignVCenter);
    case UnreadableRole:
        return typed || (column == Value && isRefused(row));
    case GapRole:
        return column == Value && !typed && isAsked(row) && !(m_edit->now().facts.*keyAt(row).member);
    case QuietRole:
        return column != Value && column != Range;
    case ChoicesRole:
        if (column == Sayer) {
            QStringList words;
            for (const auto kind : sayers())
                words << sayerWord(kind);
            return words;
        }
        return {};
    case ChangedRole:
        return column == Fact &&
               m_edit->now().facts.*keyAt(row).member != m_edit->stored().facts.*keyAt(row).member;
    case DoubtRole:
        return column == Fact && isDoubtful(row);
    case Qt::AccessibleTextRole:
        return isDoubtful(row) ? QVariant(tr("%1, doubtful").arg(data(index, Qt::DisplayRole).toString()))
                               : QVariant();
    case Qt::AccessibleDescriptionRole: {
        const auto doubt = m_doubts.find(fromCore(keyAt(row).id));
        return doubt == m_doubts.end() ? QVariant() : QVariant(doubt->second);
    }
    case Qt::ToolTipRole:
        return column == Source ? text(row, column) : QVariant();
    default:
        return {};
    }
}

Qt::ItemFlags FactsModel::flags(const QModelIndex& index) const {
    if (!index.isValid() || m_edit == nullptr) return Qt::NoItemFlags;
    Qt::ItemFlags flags = Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemNeverHasChildren;
    const int column = index.column();
    if (column == Fact || column == Unit || m_edit->isMade()) return flags;
    // A range, a sayer or a day is of a figure.
    const bool known = (m_edit->now().facts.*keyAt(index.row()).member).has_value();
    if (column == Value || known) flags |= Qt::ItemIsEditable;
    return flags;
}

std::optional<larder::Ingredient> FactsModel::with(int row, int column, const QString& typed) const {
    larder::Ingredient next = m_edit->now();
    auto& fact = next.facts.*keyAt(row).member;
    const QString text = typed.trimmed();
    if (column == Value) {
        if (text.isEmpty() || text == QStringLiteral("?")) {
            fact.reset();
        } else {
            const auto value = typedNumber(text);
            if (!value) return std::nullopt;
            // What stands there already in as many digits is no edit.
            const int decimals = factDecimals(keyAt(row).id);
            if (fact && trimmedNumber(fact->typical, decimals) == trimmedNumber(*value, decimals))
                return next;
            fact = larder::withValue(fact, *value, m_edit->today());
        }
    } else if (!fact) {
        return next;
    } else if (column == Range) {
        if (text.isEmpty()) {
            fact = larder::withRange(*fact, fact->typical, fact->typical);
        } else {
            const auto range = typedRange(text);
            if (!range) return std::nullopt;
            fact = larder::withRange(*fact, range->first, range->second);
        }
    } else if (column == Sayer) {
        for (const auto kind : sayers())
            if (sayerWord(kind) == text && fact->sourceKind != kind) fact = larder::withSayer(*fact, kind);
    } else if (column == Source) {
        fact->source = text.isEmpty() ? std::string(larder::sourceKindId(fact->sourceKind)) : toCore(text);
    } else if (column == On) {
        fact->on = toCore(text);
    }
    return next;
}

void FactsModel::setDoubts(std::map<QString, QString> doubts) {
    if (doubts == m_doubts) return;
    m_doubts = std::move(doubts);
    if (rowCount() > 0) Q_EMIT dataChanged(index(0, Fact), index(rowCount() - 1, Fact));
}

bool FactsModel::isDoubtful(int row) const {
    return m_doubts.count(fromCore(keyAt(row).id)) > 0;
}

bool FactsModel::setData(const QModelIndex& index, const QVariant& value, int role) {
    if (role != Qt::EditRole || !flags(index).testFlag(Qt::ItemIsEditable)) return false;
    const QString field = fieldOf(index.row(), index.column());
    if (index.column() == Range && value.toString() == text(index.row(), Range)) return true;
    auto next = with(index.row(), index.column(), value.toString());
    if (next) m_edit->set(std::move(*next));
    m_edit->setTyped(field, next ? QString() : value.toString());
    return true;
}

bool FactsModel::isRefused(int row) const {
    const auto& all = m_edit->findings();
    return std::any_of(all.begin(), all.end(), [&](const preparation::Finding& finding) {
        return finding.refuses && finding.key == keyAt(row).id;
    });
}

QStringList FactsModel::problems() const {
    QStringList all;
    if (m_edit == nullptr) return all;
    for (int row = 0; row < rowCount(); ++row)
        for (const int column : {static_cast<int>(Value), static_cast<int>(Range)}) {
            const QString typed = m_edit->typed(fieldOf(row, column));
            if (typed.isEmpty()) continue;
            all << (column == Value
                        ? tr("%1: “%2” is no number yet. It stays as typed and counts for nothing.")
                              .arg(factName(keyAt(row).id), shortened(typed))
                        : tr("%1: a range is written 5–7; “%2” stays as typed and counts for nothing.")
                              .arg(factName(keyAt(row).id), shortened(typed)));
        }
    return all;
}

QVariant FactsModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal) return {};
    if (role == Qt::TextAlignmentRole)
        return QVariant((section == Value || section == Range ? Qt::AlignRight : Qt::AlignLeft) |
                        Qt::AlignVCenter);
    if (role != Qt::DisplayRole) return {};
    static const char* const names[] = {QT_TR_NOOP("Fact"),  QT_TR_NOOP("Value"),    QT_TR_NOOP("Unit"),
                                        QT_TR_NOOP("Range"), QT_TR_NOOP("Who says"), QT_TR_NOOP("In words"),
                                        QT_TR_NOOP("On")};
    return tr(names[section]);
}

} // namespace stillroom::ui
