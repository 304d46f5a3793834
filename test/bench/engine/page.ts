import { assessRates } from './assess'
import { heatRates } from './heat'

const lines: string[] = []
const say = (line: string) => void lines.push(line)
heatRates(say)
assessRates(say)
document.body.textContent = lines.join('\n')
document.body.dataset.done = 'yes'
