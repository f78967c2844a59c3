#include "ui/models/spec_model.h"

#include "core/spec/edit.h"
#include "ui/text/amounts.h"
#include "ui/text/border.h"
#include "ui/text/revision_label.h"
#include "ui/text/words.h"

#include <algorithm>

namespace stillroom::ui {

SpecModel::SpecModel(QObject* parent) : QAbstractTableModel(parent) {}

void SpecModel::setSession(DraftSession* session) {
    if (m_session == session && !m_fixed) return;
    beginResetModel();
    m_fixed = false;
    if (m_session) m_session->disconnect(this);
    m_session = session;
    m_opened = -1;
    m_rows.clear();
    m_total = {};
    if (m_session) {
        m_rows = sheetRows(m_session->now(), m_session->bindings(), m_session->base());
        m_total = sheetTotal(m_session->now(), m_session->base(), m_session->drink().form);
        connect(m_session, &DraftSession::changed, this, &SpecModel::onChanged);
        connect(m_session, &DraftSession::baseChanged, this, [this] {
            refresh();
            Q_EMIT headerDataChanged(Qt::Horizontal, Margin, Margin);
        });
    }
    endResetModel();
    Q_EMIT totalChanged();
}

void SpecModel::showFixed(const RevisionReading& reading) {
    beginResetModel();
    if (m_session) m_session->disconnect(this);
    m_fixed = true;
    m_opened = -1;
    m_rows = sheetRows(reading.now, *reading.bindings, std::nullopt);
    m_total = sheetTotal(reading.now, std::nullopt);
    endResetModel();
    Q_EMIT totalChanged();
}

int SpecModel::rowCount(const QModelIndex& parent) const {
    if (parent.isValid() || !m_session) return 0;
    if (m_fixed) return lineCount();
    return lineCount() + 1 + (m_opened >= 0 ? 1 : 0);
}

int SpecModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : ColumnCount;
}

bool SpecModel::isOpenRow(int row) const {
    return !m_fixed && (row == rowCount() - 1 || row == m_opened);
}

int SpecModel::lineAt(int row) const {
    if (row < 0 || row >= rowCount() || isOpenRow(row)) return -1;
    return m_opened >= 0 && row > m_opened ? row - 1 : row;
}

int SpecModel::rowOf(int line) const {
    return m_opened >= 0 && line >= m_opened ? line + 1 : line;
}

const SheetRow* SpecModel::sheetRow(int row) const {
    const int line = lineAt(row);
    return line < 0 ? nullptr : &m_rows[static_cast<std::size_t>(line)];
}

QVariant SpecModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || !m_session) return {};
    const SheetRow* row = sheetRow(index.row());
    if (row == nullptr) {
        if (role == Qt::AccessibleTextRole && index.column() == Amount)
            return tr("Next line, as you would write it");
        return {};
    }
    if (role == Qt::EditRole) {
        if (index.column() == Amount) {
            // While rows are being put in or taken out, the spec may be shorter than the rows.
            const auto line = static_cast<std::size_t>(lineAt(index.row()));
            const auto& lines = m_session->spec().lines;
            return line < lines.size() ? amountForEditing(lines[line].poured) : QString();
        }
        if (index.column() == Name) return row->name;
        return {};
    }
    if (role == Qt::AccessibleDescriptionRole) return row->inWords();
    if (role == Qt::ToolTipRole && index.column() == Name) return row->inWords();
    if (role != Qt::DisplayRole && role != Qt::AccessibleTextRole) return {};
    switch (index.column()) {
    case Role:
        return roleName(row->role);
    case Amount:
        return row->unit.isEmpty() ? row->amount : QString(row->amount + QLatin1Char(' ') + row->unit);
    case Name:
        return row->name;
    case Alcohol:
        return row->alcohol.plain();
    case Sugar:
        return row->sugar.plain();
    case Acid:
        return row->acid.plain();
    case Cost:
        return row->cost.plain();
    case Margin:
        if (row->margin.isEmpty()) return QString();
        return QString(row->margin.struck + QLatin1Char(' ') + row->margin.difference).trimmed();
    default:
        return {};
    }
}

QVariant SpecModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
    switch (section) {
    case Amount:
        return tr("amount");
    case Name:
        return tr("line");
    case Alcohol:
        return tr("alcohol\nml");
    case Sugar:
        return tr("sugar\ng");
    case Acid:
        return tr("acid\ng");
    case Cost:
        return tr("cost\n%1")
            .arg(m_session ? currencySign(m_session->book().settings().rules.currency) : QString());
    case Margin:
        return m_session && !m_fixed && m_session->base()
                   ? tr("against %1").arg(revisionLabel(m_session->drink().form, m_session->base()->number))
                   : QString();
    default:
        return QString();
    }
}

Qt::ItemFlags SpecModel::flags(const QModelIndex& index) const {
    if (!index.isValid()) return Qt::NoItemFlags;
    Qt::ItemFlags flags = Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemNeverHasChildren;
    if (!m_session || m_fixed || m_session->book().book().isReadOnly()) return flags;
    if (index.column() == Amount || (index.column() == Name && !isOpenRow(index.row())))
        flags |= Qt::ItemIsEditable;
    return flags;
}

bool SpecModel::setData(const QModelIndex& index, const QVariant& value, int role) {
    if (role != Qt::EditRole || !m_session) return false;
    if (isOpenRow(index.row())) return write(index.row(), value.toString()).outcome == Written::Added;
    if (index.column() == Amount) return typeAmount(index.row(), value.toString(), m_session->newMergeKey());
    if (index.column() == Name) return setName(index.row(), value.toString(), std::nullopt);
    return false;
}

std::optional<spec::Measured> SpecModel::amountMeant(int row, const QString& text) const {
    const int line = lineAt(row);
    if (line < 0 || !m_session) return std::nullopt;
    return readAmountOver(text, m_session->spec().lines[static_cast<std::size_t>(line)].poured);
}

bool SpecModel::typeAmount(int row, const QString& text, int mergeKey) {
    const auto meant = amountMeant(row, text);
    if (!meant) return false;
    setAmount(row, *meant, mergeKey);
    return true;
}

bool SpecModel::setAmount(int row, const spec::Measured& measured, int mergeKey) {
    const int line = lineAt(row);
    if (line < 0) return false;
    const auto& spec = m_session->spec();
    const auto at = static_cast<std::size_t>(line);
    return m_session->apply(spec::withAmount(spec, at, measured),
                            tr("Amount of %1").arg(fromCore(spec.lines[at].name)), mergeKey, this);
}

bool SpecModel::setName(int row, const QString& name, std::optional<base::IngredientId> chosen) {
    const int line = lineAt(row);
    if (line < 0 || name.trimmed().isEmpty()) return false;
    const auto& spec = m_session->spec();
    const auto at = static_cast<std::size_t>(line);
    if (chosen)
        return m_session->applyChoice(at, toCore(name.trimmed()), *chosen, tr("Name of a line"), this);
    auto next = renamed(spec.lines[at], name, m_session->book().larder());
    return m_session->apply(spec::withLineReplaced(spec, at, std::move(next)), tr("Name of a line"),
                            DraftSession::kNoMerge, this);
}

std::size_t SpecModel::insertPosition(int row) const {
    return static_cast<std::size_t>(row == m_opened && m_opened >= 0 ? m_opened : lineCount());
}

SpecModel::WriteResult SpecModel::write(int row, const QString& text) {
    WriteResult result;
    if (!m_session || m_fixed || !isOpenRow(row) || text.trimmed().isEmpty()) return result;
    result.entry = readEntry(text, m_session->book().readOptions(), m_session->book().larder());
    if (result.entry.asks) {
        result.outcome = Written::Asks;
        return result;
    }
    if (result.entry.lines.empty()) {
        result.outcome = Written::NotALine;
        return result;
    }
    auto added = insertAnswered(row, result.entry.lines);
    added.entry = std::move(result.entry);
    return added;
}

SpecModel::WriteResult SpecModel::insertAnswered(int row, const std::vector<spec::Line>& lines) {
    WriteResult result;
    if (!m_session || lines.empty()) return result;
    std::size_t at = insertPosition(row);
    result.firstLine = static_cast<int>(at);
    result.lines = static_cast<int>(lines.size());
    spec::Spec next = m_session->spec();
    for (const auto& line : lines)
        next = spec::withLine(next, at++, line);
    if (row == m_opened) closeOpenedRow();
    m_session->apply(std::move(next), tr("Line %1").arg(fromCore(lines.front().name)), DraftSession::kNoMerge,
                     this);
    result.outcome = Written::Added;
    return result;
}

int SpecModel::openRowAbove(int row) {
    if (m_fixed || !m_session) return row;
    closeOpenedRow();
    const int at = std::clamp(row, 0, lineCount());
    if (at == lineCount()) return at; // the last row is open already
    beginInsertRows({}, at, at);
    m_opened = at;
    endInsertRows();
    return at;
}

void SpecModel::closeOpenedRow() {
    if (m_opened < 0) return;
    beginRemoveRows({}, m_opened, m_opened);
    m_opened = -1;
    endRemoveRows();
}

void SpecModel::removeLine(int row) {
    const int line = lineAt(row);
    if (line < 0 || m_fixed) return;
    const auto at = static_cast<std::size_t>(line);
    const auto& spec = m_session->spec();
    m_session->apply(spec::withoutLine(spec, at), tr("Delete %1").arg(fromCore(spec.lines[at].name)),
                     DraftSession::kNoMerge, this);
}

void SpecModel::splitLine(int row) {
    const int line = lineAt(row);
    if (line < 0 || m_fixed) return;
    m_session->apply(spec::withLineSplit(m_session->spec(), static_cast<std::size_t>(line)),
                     tr("Split a line"), DraftSession::kNoMerge, this);
}

bool SpecModel::moveLine(int row, int by) {
    const int line = lineAt(row);
    const int to = line + by;
    if (m_fixed || line < 0 || to < 0 || to >= lineCount()) return false;
    closeOpenedRow();
    return m_session->apply(
        spec::withLineMoved(m_session->spec(), static_cast<std::size_t>(line), static_cast<std::size_t>(to)),
        tr("Move a line"), DraftSession::kNoMerge, this);
}

void SpecModel::setRole(int row, spec::Role role) {
    const int line = lineAt(row);
    if (line < 0 || m_fixed) return;
    const auto at = static_cast<std::size_t>(line);
    spec::Line next = m_session->spec().lines[at];
    next.role = role;
    m_session->apply(spec::withLineReplaced(m_session->spec(), at, std::move(next)),
                     tr("%1 is %2").arg(fromCore(m_session->spec().lines[at].name), roleName(role)),
                     DraftSession::kNoMerge, this);
}

void SpecModel::toggleOptional(int row) {
    const int line = lineAt(row);
    if (line < 0 || m_fixed) return;
    const auto at = static_cast<std::size_t>(line);
    spec::Line next = m_session->spec().lines[at];
    next.optional = !next.optional;
    m_session->apply(spec::withLineReplaced(m_session->spec(), at, std::move(next)), tr("Optional line"),
                     DraftSession::kNoMerge, this);
}

void SpecModel::onChanged(const DraftChange& /*change*/) {
    refresh();
}

void SpecModel::refresh() {
    showRows(sheetRows(m_session->now(), m_session->bindings(), m_session->base()));
    auto total = sheetTotal(m_session->now(), m_session->base(), m_session->drink().form);
    if (total == m_total) return;
    m_total = std::move(total);
    Q_EMIT totalChanged();
}

// Rows that only differ are announced cell by cell; rows put in or taken out stand between a common start
// and a common end. A row with an open editor so keeps its place and its text.
void SpecModel::showRows(std::vector<SheetRow> rows) {
    const std::size_t before = m_rows.size();
    const std::size_t after = rows.size();
    const auto alike = [](const SheetRow& a, const SheetRow& b) {
        return a.name == b.name && a.amount == b.amount;
    };
    std::size_t start = 0;
    std::size_t end = 0;
    if (before != after) {
        const std::size_t shorter = std::min(before, after);
        while (start < shorter && alike(m_rows[start], rows[start]))
            ++start;
        while (end < shorter - start && alike(m_rows[before - 1 - end], rows[after - 1 - end]))
            ++end;
        if (after < before) {
            const auto count = before - after;
            start = std::min(start, after);
            closeOpenedRow();
            beginRemoveRows({}, static_cast<int>(start), static_cast<int>(start + count - 1));
            m_rows.erase(m_rows.begin() + static_cast<std::ptrdiff_t>(start),
                         m_rows.begin() + static_cast<std::ptrdiff_t>(start + count));
            endRemoveRows();
        } else {
            const auto count = after - before;
            start = std::min(start, before);
            closeOpenedRow();
            beginInsertRows({}, static_cast<int>(start), static_cast<int>(start + count - 1));
            m_rows.insert(m_rows.begin() + static_cast<std::ptrdiff_t>(start),
                          rows.begin() + static_cast<std::ptrdiff_t>(start),
                          rows.begin() + static_cast<std::ptrdiff_t>(start + count));
            endInsertRows();
        }
    }
    const std::vector<SheetRow> shown = std::exchange(m_rows, std::move(rows));
    for (std::size_t line = 0; line < m_rows.size(); ++line)
        announceDifferences(line, shown);
}

void SpecModel::announceDifferences(std::size_t line, const std::vector<SheetRow>& before) {
    const SheetRow& now = m_rows[line];
    const SheetRow& was = before[line];
    if (now == was) return;
    const int row = rowOf(static_cast<int>(line));
    const auto tell = [&](int first, int last) { Q_EMIT dataChanged(index(row, first), index(row, last)); };
    if (now.role != was.role || now.firstOfRole != was.firstOfRole) tell(Role, Role);
    if (now.amount != was.amount || now.unit != was.unit) tell(Amount, Amount);
    if (now.name != was.name || now.hint != was.hint || now.gap != was.gap || now.optional != was.optional)
        tell(Name, Name);
    tell(Alcohol, Margin);
}

} // namespace stillroom::ui
