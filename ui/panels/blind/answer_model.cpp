#include "ui/panels/blind/answer_model.h"

#include "ui/plots/plot_text.h"
#include "ui/text/border.h"

#include <algorithm>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;
using tasting::AnswerStanding;
using tasting::MarkSort;

namespace {

QString standingWords(AnswerStanding standing) {
    if (standing == AnswerStanding::Whole) return QObject::tr("in");
    return standing == AnswerStanding::Partial ? QObject::tr("in part") : QObject::tr("missing");
}

QString placeWords(std::size_t place) {
    static const QStringList first{QObject::tr("1st"), QObject::tr("2nd"), QObject::tr("3rd")};
    return place < 3 ? first[static_cast<qsizetype>(place)] : QObject::tr("%1th").arg(place + 1);
}

} // namespace

AnswerModel::AnswerModel(QObject* parent) : QAbstractTableModel(parent) {}

void AnswerModel::setPanel(const tasting::Panel& panel, const tasting::PanelNames& names) {
    beginResetModel();
    m_panel = panel;
    m_names = names;
    m_products.clear();
    m_opened.clear();
    m_columns.clear();
    const std::size_t cups = panel.servings.empty() ? 0 : panel.servings.front().cups.size();
    for (std::size_t cup = 0; cup < cups; ++cup) {
        m_columns.push_back({cup, tasting::askedMark(panel.design.kind, cups)});
        if (panel.design.kind == tasting::PanelKind::JustAboutRight)
            m_columns.push_back({cup, tasting::askedMark(tasting::PanelKind::Hedonic, cups)});
    }
    endResetModel();
}

void AnswerModel::setOpened(const std::vector<SampleName>& samples) {
    if (m_panel.state != tasting::PanelState::Closed) return;
    const auto opened = tasting::openedAnswers(m_panel);
    if (!opened) return;
    beginResetModel();
    m_opened = *opened;
    m_products = samples;
    endResetModel();
}

double AnswerModel::productWidth(const Look& look) const {
    double widest = 0;
    for (const auto& name : m_products)
        widest = std::max(widest, textWidth(name.whole(), Type::Line, look));
    return widest;
}

double AnswerModel::standingWidth(const Look& look) const {
    double widest = textWidth(headerData(standingColumn(), Qt::Horizontal, Qt::DisplayRole).toString(),
                              Type::Caption, look);
    for (std::size_t row = 0; row < m_panel.answers.size(); ++row)
        widest = std::max(widest, textWidth(standing(row), Type::Control, look));
    return widest;
}

double AnswerModel::nameWidth(const Look& look) const {
    double widest = 0;
    for (const auto& name : m_names.tasters)
        widest = std::max(widest, textWidth(fromCore(name), Type::Line, look));
    return widest;
}

bool AnswerModel::hasNotes() const {
    return std::any_of(m_panel.answers.begin(), m_panel.answers.end(),
                       [](const tasting::Answer& answer) { return !answer.note.empty(); });
}

// Once it is opened, whether the answer was right, where there is a right one.
QString AnswerModel::standing(std::size_t row) const {
    const auto standing = tasting::standingOf(m_panel, row);
    if (row < m_opened.size() && m_opened[row].right)
        return *m_opened[row].right ? tr("right") : tr("not right");
    return standingWords(standing);
}

int AnswerModel::marks() const {
    return static_cast<int>(m_columns.size());
}

tasting::AskedMark AnswerModel::asked(int at) const {
    return column(at).asked;
}

const tasting::Cup& AnswerModel::cup(const QModelIndex& index) const {
    return m_panel.servings[static_cast<std::size_t>(index.row())].cups[column(index.column()).cup];
}

std::optional<int> AnswerModel::mark(const QModelIndex& index) const {
    if (!isMark(index)) return std::nullopt;
    return tasting::markOn(m_panel.answers[static_cast<std::size_t>(index.row())],
                           column(index.column()).asked.sort, cup(index).code);
}

void AnswerModel::enterMark(const QModelIndex& index, std::optional<int> mark) {
    if (!m_writable || !isMark(index)) return;
    const auto row = static_cast<std::size_t>(index.row());
    const auto& asked = column(index.column()).asked;
    if (mark && (*mark < asked.low || *mark > asked.high)) return;
    const auto next = tasting::withMark(m_panel.answers[row], asked.sort, cup(index).code, mark);
    if (!(next == m_panel.answers[row])) Q_EMIT answered(row, next);
}

void AnswerModel::setAnswer(std::size_t taster, const tasting::Answer& answer) {
    m_panel.answers[taster] = answer;
    const int row = static_cast<int>(taster);
    Q_EMIT dataChanged(index(row, 0), index(row, columnCount() - 1));
}

int AnswerModel::firstOpenRow() const {
    for (std::size_t row = 0; row < m_panel.answers.size(); ++row)
        if (tasting::standingOf(m_panel, row) != AnswerStanding::Whole) return static_cast<int>(row);
    return 0;
}

int AnswerModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_panel.answers.size());
}

int AnswerModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : marks() + 3;
}

// The cell in words, for a screen reader and for a tip where it is cut.
QString AnswerModel::said(const QModelIndex& index) const {
    const QString taster = fromCore(m_names.tasters[static_cast<std::size_t>(index.row())]);
    const auto& asked = column(index.column()).asked;
    QString text = tr("%1, cup %2").arg(taster).arg(cup(index).code);
    if (isOpened()) text += u", "_s + m_products[cup(index).product].whole();
    const auto mark = this->mark(index);
    if (asked.sort == MarkSort::Chosen) return text + u", "_s + (mark ? tr("chosen") : tr("not chosen"));
    return text + u", "_s + (mark ? QString::number(*mark) : tr("no mark yet"));
}

QVariant AnswerModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) return {};
    const auto row = static_cast<std::size_t>(index.row());
    const auto standing = tasting::standingOf(m_panel, row);
    if (role == StandingRole) return static_cast<int>(standing);
    if (index.column() == 0) {
        const QString name = fromCore(m_names.tasters[row]);
        if (role == Qt::AccessibleTextRole) return QString(name + u", "_s + this->standing(row));
        return role == Qt::DisplayRole || role == Qt::ToolTipRole ? QVariant(name) : QVariant();
    }
    if (index.column() == noteColumn()) {
        const QString note = fromCore(m_panel.answers[row].note);
        if (role == Qt::AccessibleTextRole) return tr("note: %1").arg(note.isEmpty() ? tr("none") : note);
        return role == Qt::DisplayRole || role == Qt::EditRole || role == Qt::ToolTipRole ? QVariant(note)
                                                                                          : QVariant();
    }
    if (index.column() == standingColumn())
        return role == Qt::DisplayRole || role == Qt::AccessibleTextRole ? QVariant(this->standing(row))
                                                                         : QVariant();
    const auto mark = this->mark(index);
    switch (role) {
    case Qt::DisplayRole:
        return mark ? u"%1 %2"_s.arg(cup(index).code).arg(*mark) : QString::number(cup(index).code);
    case Qt::AccessibleTextRole:
    case Qt::ToolTipRole:
        return said(index);
    case CodeRole:
        return cup(index).code;
    case MarkRole:
        return mark ? QVariant(*mark) : QVariant();
    case ChoiceRole:
        return column(index.column()).asked.sort == MarkSort::Chosen;
    case ProductRole:
        return isOpened() ? QVariant(m_products[cup(index).product].drink) : QVariant();
    case RevisionRole:
        return isOpened() ? QVariant(m_products[cup(index).product].revision) : QVariant();
    default:
        return {};
    }
}

QVariant AnswerModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
    if (section == 0) return tr("taster");
    if (section == noteColumn()) return tr("note");
    if (section == standingColumn()) return tr("answer");
    if (section > marks()) return {};
    const auto& at = column(section);
    QString text = placeWords(at.cup);
    if (m_panel.design.kind == tasting::PanelKind::JustAboutRight)
        text += at.asked.sort == MarkSort::JustRight ? tr(" right") : tr(" liking");
    return text;
}

Qt::ItemFlags AnswerModel::flags(const QModelIndex& index) const {
    auto flags = QAbstractTableModel::flags(index);
    if (m_writable && index.column() == noteColumn()) flags |= Qt::ItemIsEditable;
    return flags;
}

bool AnswerModel::setData(const QModelIndex& index, const QVariant& value, int role) {
    if (!m_writable || role != Qt::EditRole || index.column() != noteColumn()) return false;
    const auto row = static_cast<std::size_t>(index.row());
    tasting::Answer next = m_panel.answers[row];
    next.note = toCore(value.toString().simplified());
    if (!(next == m_panel.answers[row])) Q_EMIT answered(row, next);
    return true;
}

} // namespace stillroom::ui
